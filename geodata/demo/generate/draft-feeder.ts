import { loadOf, type Service, serviceTransformerOf } from './customers.ts'
import { arresters, cutouts, guys, riser, trunkOf } from './devices.ts'
import type {
  EquipmentDraft,
  FeederDraft,
  HeaderDraft,
  PoleDraft,
  SpanDraft,
} from './feeder-draft.ts'
import type { FeederSurroundings } from './feeder-surroundings.ts'
import { framingOf, type PoleDuty } from './framing.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { LaidPole, LaidSpan } from './lay-line.ts'
import { lineTypeId, lineTypeOf } from './line-types.ts'
import { directionsTo, type Landmark } from './place-words.ts'
import { positionOf, roundTo, turnDeg } from './plane.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { type Road, SEED } from './valley.ts'

export interface FeederMakings {
  readonly laid: LaidFeeder
  readonly services: readonly Service[]
  readonly header: Omit<
    HeaderDraft,
    'format' | 'id' | 'source' | 'lineTypes' | 'place' | 'coordinates'
  > & {
    readonly sourceVoltagePu: number
  }
  readonly devices: (laid: LaidFeeder, taken: ReadonlySet<string>) => EquipmentDraft[]
  readonly surroundings: (laid: LaidFeeder) => FeederSurroundings
  readonly roads: readonly Road[]
  readonly landmarks: readonly Landmark[]
  /** Added to the directions of the last trunk pole. */
  readonly lastPoleNote?: string
  readonly placeId: string
}

export function draftFeeder(makings: FeederMakings): FeederDraft {
  const { laid, services } = makings
  const random = seededRandom(SEED, `${laid.id} poles`)
  const devices = makings.devices(laid, new Set(services.map(({ pole }) => pole.id)))
  const years = new Map(laid.poles.map((pole) => [pole.id, yearOf(pole, random)]))
  const served = services.flatMap((service) => serviceEquipment(service, years, random))
  const duties = dutiesOf(laid, services, devices, years)
  const { protections, ...surroundings } = makings.surroundings(laid)
  return {
    header: headerOf(makings),
    poles: laid.poles.map((pole) => poleOf(pole, duties, makings, random)),
    spans: laid.spans.map(spanOf),
    equipment: [...devices, ...served, ...guysOf(laid, duties)],
    loads: services.map(loadOf),
    ...surroundings,
    protections: protections.filter((item) => fitsEquipment(item, served)),
  }
}

/** A cap goes on an arrester; where there is none the crew put none up. */
function fitsEquipment(
  { measure, pole }: FeederDraft['protections'][number],
  equipment: readonly EquipmentDraft[],
): boolean {
  if (measure !== 'arrester cap') return true
  return equipment.some((item) => item.kind === 'arrester' && item.pole === pole)
}

function headerOf({ laid, header, placeId }: FeederMakings): HeaderDraft {
  const { sourceVoltagePu, ...rest } = header
  const used = new Map(laid.spans.map((span) => [lineTypeId(span.size, span.phases), span]))
  return {
    format: 'crossarm-feeder-1',
    id: laid.id,
    ...rest,
    source: { pole: laid.source.id, voltagePu: sourceVoltagePu },
    lineTypes: [...used.values()].map(({ size, phases }) => lineTypeOf(size, phases)),
    coordinates: 'invented',
    place: placeId,
  }
}

function spanOf({ id, from, to, phases, size }: LaidSpan): SpanDraft {
  return {
    id,
    path: [positionOf(from.at), positionOf(to.at)],
    from: from.id,
    to: to.id,
    phases,
    lineType: lineTypeId(size, phases),
  }
}

/** Most of the line is as it was built; poles are replaced as they rot. */
function yearOf(pole: LaidPole, random: SeededRandom): number {
  const built = pole.series === '' ? random.whole(1968, 1974) : random.whole(1971, 1988)
  return random.chance(0.34) ? random.whole(1992, 2024) : built
}

interface PoleSituation {
  readonly duty: PoleDuty
  readonly isNoted: boolean
}

function dutiesOf(
  laid: LaidFeeder,
  services: readonly Service[],
  devices: readonly EquipmentDraft[],
  years: ReadonlyMap<string, number>,
): Map<string, PoleSituation> {
  const served = new Set(services.map(({ pole }) => pole.id))
  const heavy = new Map(devices.flatMap((item) => heavyDevice(item)))
  const at = new Map<string, { in?: LaidSpan; out: LaidSpan[] }>()
  const entry = (id: string): { in?: LaidSpan; out: LaidSpan[] } => {
    const found = at.get(id) ?? { out: [] }
    at.set(id, found)
    return found
  }
  for (const span of laid.spans) {
    entry(span.to.id).in = span
    entry(span.from.id).out.push(span)
  }
  return new Map(
    laid.poles.map((pole) => {
      const { in: inward, out } = entry(pole.id)
      const onward = out.find(({ to }) => to.series === pole.series)
      const device = heavy.get(pole.id) ?? (served.has(pole.id) ? 'transformer' : null)
      const duty: PoleDuty = {
        phaseCount: (inward ?? onward)?.phases.length ?? 3,
        turnDeg: inward && onward ? Math.abs(turnDeg(inward.from.at, pole.at, onward.to.at)) : 0,
        isEnd: !inward || !onward,
        isTap: out.some(({ to }) => to.series !== pole.series),
        device,
        installedYear: years.get(pole.id) ?? 1970,
      }
      return [pole.id, { duty, isNoted: device !== null || duty.isEnd || duty.isTap }]
    }),
  )
}

function heavyDevice(item: EquipmentDraft): [string, NonNullable<PoleDuty['device']>][] {
  if (item.kind === 'regulator') return [[item.pole, 'regulator']]
  if (item.kind === 'capacitor') return [[item.pole, 'capacitor']]
  if (item.kind === 'switch' || item.kind === 'recloser') return [[item.pole, item.kind]]
  if (item.kind === 'solar' || item.kind === 'transformer') return [[item.pole, 'transformer']]
  return []
}

function poleOf(
  pole: LaidPole,
  situations: ReadonlyMap<string, PoleSituation>,
  { laid, roads, landmarks, lastPoleNote }: FeederMakings,
  random: SeededRandom,
): PoleDraft {
  const situation = situations.get(pole.id)
  if (!situation) throw new Error(`Pole ${pole.id} has no situation.`)
  const { duty, isNoted } = situation
  const hasWords = random.chance(0.2) || isNoted
  const isLast = pole === trunkOf(laid).poles.at(-1)
  const note = isLast && lastPoleNote ? `; ${lastPoleNote}` : ''
  return {
    id: pole.id,
    at: positionOf(pole.at),
    ...stemOf(duty, random),
    installedYear: duty.installedYear,
    ...framingOf(duty, random),
    ...(hasWords && { location: `${directionsTo(pole.at, roads, landmarks)}${note}` }),
  }
}

/** Pole lengths come in steps of 5 ft; heavy duty asks for taller and stronger ones. */
function stemOf(
  duty: PoleDuty,
  random: SeededRandom,
): Pick<PoleDraft, 'heightM' | 'poleClass' | 'material'> {
  const isHeavy = duty.device !== null && duty.device !== 'transformer'
  const isStrong = isHeavy || duty.turnDeg > 20
  const draw = random.next()
  const material = random.chance(0.035) ? 'steel' : 'wood'
  const heightFt =
    duty.phaseCount === 3
      ? isHeavy
        ? 45 + 5 * Math.round(draw)
        : draw < 0.14
          ? 35
          : draw < 0.7
            ? 40
            : draw < 0.94
              ? 45
              : 50
      : draw < 0.6
        ? 35
        : 40
  const poleClass =
    duty.phaseCount === 3
      ? isStrong
        ? draw < 0.5
          ? '2'
          : '3'
        : draw < 0.2
          ? '5'
          : draw < 0.75
            ? '4'
            : '3'
      : draw < 0.55
        ? '6'
        : '5'
  return { heightM: roundTo(heightFt * 0.3048, 2), poleClass, material }
}

function serviceEquipment(
  service: Service,
  years: ReadonlyMap<string, number>,
  random: SeededRandom,
): EquipmentDraft[] {
  const { pole, phases, customerClass } = service
  const transformer = serviceTransformerOf(
    service,
    (years.get(pole.id) ?? 1980) + random.whole(0, 4),
  )
  const isBuried =
    customerClass === 'irrigation' || (customerClass !== 'stock-well' && random.chance(0.08))
  return [
    transformer,
    cutouts(pole, phases, pole.id),
    ...(random.chance(0.55) ? [arresters(pole, phases, pole.id)] : []),
    ...(isBuried ? [riser(pole, phases)] : []),
  ]
}

function guysOf(
  laid: LaidFeeder,
  situations: ReadonlyMap<string, PoleSituation>,
): EquipmentDraft[] {
  const [source] = trunkOf(laid).poles
  return laid.poles.flatMap((pole) => {
    const duty = situations.get(pole.id)?.duty
    if (!duty || (duty.turnDeg < 20 && !duty.isEnd)) return []
    const phases = laid.spans.find(
      ({ to, from }) => (pole === source ? from : to).id === pole.id,
    )?.phases
    return [guys(pole, phases ?? 'ABC', duty.turnDeg > 45 ? 2 : 1)]
  })
}
