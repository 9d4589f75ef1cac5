import { besideTrunk } from './beside-trunk.ts'
import type { NestPlan } from './bird-records.ts'
import type { Service } from './customers.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { distance } from './plane.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { SEED } from './valley.ts'

type ProtectionDraft = FeederDraft['protections'][number]
type Measure = NonNullable<ProtectionDraft['measure']>

/** The day on which the demo's record was closed. */
const CLOSED_ON = '2026-10-31'

/** Covers and perches so far: near the nests first, and at the poles where birds were found. */
export function protectionsOf(
  laid: LaidFeeder,
  services: readonly Service[],
  nestPlans: readonly NestPlan[],
  reachM: number,
  finds: FeederDraft['incidents'],
): FeederDraft['protections'] {
  const random = seededRandom(SEED, `${laid.id} protections`)
  const looks = seededRandom(SEED, `${laid.id} looks at protections`)
  const nests = nestPlans.map(({ km, leftM }) => besideTrunk(laid, km, leftM).at)
  const near = services.filter(({ pole }) => nests.some((nest) => distance(nest, pole.at) < reachM))
  const nearNests = near.flatMap((service) =>
    random.chance(0.62) ? itemsOn(service, random).flatMap((each) => seen(each, looks)) : [],
  )
  const repairs = services.flatMap((service) => repairAfter(finds, service, nearNests))
  const repaired = new Set(repairs.map(({ pole }) => pole))
  return [...nearNests.filter(({ pole }) => !repaired.has(pole)), ...repairs]
}

/** Where a bird was found and the pole mended, what hangs there dates from then. */
function repairAfter(
  finds: FeederDraft['incidents'],
  service: Service,
  items: readonly ProtectionDraft[],
): ProtectionDraft[] {
  const { id } = service.pole
  const find = finds.find(({ pole, fixedOn }) => pole === id && fixedOn !== undefined)
  if (!find?.fixedOn) return []
  const on = find.fixedOn
  const own = items.filter(({ pole }) => pole === id)
  const pieces = own.length > 0 ? own : [pieceOn(service, 'bushing'), pieceOn(service, 'cutout')]
  return pieces.map((piece) => ({
    ...piece,
    state: 'on',
    on,
    installedBy: 'line crew 1',
    inspectEveryMonths: 36,
    inspectedOn: find.inspectedOn ?? on,
    condition: 'sound',
  }))
}

interface Piece {
  readonly suffix: string
  readonly measure: Measure
  readonly kind: ProtectionDraft['kind']
  readonly what: string
  readonly costUsd: number
}

/** Costs are invented, about the middle of what the catalogue of measures assumes. */
const PIECES = {
  bushing: ['bushing cover', 'cover', 'bushing cover', 340],
  cutout: ['cutout cover', 'cover', 'cutout cover', 290],
  jumper: ['insulated jumper', 'cover', 'insulated jumper to transformer', 360],
  arrester: ['arrester cap', 'guard', 'arrester cap', 160],
  conductor: ['conductor cover', 'cover', 'conductor cover at the insulators', 520],
} as const satisfies Record<string, readonly [Measure, Piece['kind'], string, number]>

type PieceName = keyof typeof PIECES

interface Placed {
  readonly service: Service
  readonly names: readonly PieceName[]
  readonly items: readonly ProtectionDraft[]
  readonly visitedOn: string
}

function itemsOn(service: Service, random: SeededRandom): Placed[] {
  const visitedOn = dateIn(random, 2016, 2025)
  const items: ProtectionDraft[] = []
  const names: PieceName[] = []
  const put = (name: PieceName): void => {
    names.push(name)
    items.push({ ...pieceOn(service, name), ...stateOf(random, visitedOn) })
  }
  put('bushing')
  put('cutout')
  if (random.chance(0.45)) put('jumper')
  if (random.chance(0.2)) put('arrester')
  if (random.chance(0.12)) items.push({ ...perchOn(service), ...stateOf(random, visitedOn) })
  return [{ service, names, items, visitedOn }]
}

type PlainItem = Omit<ProtectionDraft, 'state' | 'on'>

function pieceOn({ pole, phases }: Service, name: PieceName): PlainItem {
  const [measure, kind, what, costUsd] = PIECES[name]
  const atTransformer = phases.length === 1 ? `${phases} phase` : `${phases.length} phases`
  const words = name === 'conductor' ? 'all phases' : atTransformer
  return {
    id: `item-${pole.id}-${name}`,
    pole: pole.id,
    kind,
    what: `${what}, ${words}`,
    measure,
    materialClass: '25 kV, polymer',
    costUsd: costUsd * (phases.length === 1 ? 1 : 1.8),
  }
}

function perchOn({ pole }: Service): PlainItem {
  return {
    id: `item-${pole.id}-perch`,
    pole: pole.id,
    kind: 'perch',
    what: 'raised perch above the pole top',
    note: 'seen in use',
    measure: 'raised perch',
    materialClass: 'wood',
    costUsd: 280,
  }
}

/** Some poles were finished later on, in one visit with everything; the rest were looked at as they came up. */
function seen(
  { service, names, items, visitedOn }: Placed,
  looks: SeededRandom,
): ProtectionDraft[] {
  if (!looks.chance(0.22)) return items.map((item) => lookedAt(item, looks))
  const finishedOn = dateIn(looks, 2021, 2025)
  const missing = (Object.keys(PIECES) as PieceName[]).filter((name) => !names.includes(name))
  const added = missing.map(
    (name): ProtectionDraft => ({ ...pieceOn(service, name), state: 'on', on: finishedOn }),
  )
  const on = finishedOn > visitedOn ? finishedOn : visitedOn
  const whole = [...items.map((item): ProtectionDraft => ({ ...item, state: 'on', on })), ...added]
  return whole.map((item) => ({
    ...item,
    ...visit(looks),
    inspectedOn: earlier(dateIn(looks, 2026, 2026), CLOSED_ON),
    condition: 'sound',
  }))
}

/** What is up is inspected every few years, not always in time; a few looks found something. */
function lookedAt(item: ProtectionDraft, looks: SeededRandom): ProtectionDraft {
  const whole = { ...item, ...visit(looks) }
  if (item.state === 'failed') {
    return {
      ...whole,
      inspectedOn: item.on,
      condition: looks.pick(['slipped', 'tracked', 'missing']),
    }
  }
  if (item.state !== 'on') return whole
  const inspectedOn = dateIn(looks, 2019, 2026)
  if (!looks.chance(0.7) || inspectedOn <= item.on || inspectedOn > CLOSED_ON) return whole
  const isSound = looks.chance(0.92)
  return {
    ...whole,
    inspectedOn,
    condition: isSound ? 'sound' : looks.pick(['loose', 'slipped', 'tracked', 'missing']),
  }
}

function visit(looks: SeededRandom): Pick<ProtectionDraft, 'installedBy' | 'inspectEveryMonths'> {
  return {
    installedBy: looks.pick(['line crew 1', 'line crew 2', 'contract crew']),
    inspectEveryMonths: looks.pick([36, 60, 60]),
  }
}

function stateOf(random: SeededRandom, visitedOn: string): Pick<ProtectionDraft, 'state' | 'on'> {
  const draw = random.next()
  if (draw < 0.18) return { state: 'planned', on: dateIn(random, 2026, 2026) }
  if (draw < 0.84) return { state: 'on', on: visitedOn }
  if (draw < 0.95) return { state: 'failed', on: dateIn(random, 2024, 2025) }
  return { state: 'removed', on: dateIn(random, 2022, 2025) }
}

function earlier(one: string, other: string): string {
  return one < other ? one : other
}

function dateIn(random: SeededRandom, firstYear: number, lastYear: number): string {
  const two = (value: number): string => String(value).padStart(2, '0')
  return `${random.whole(firstYear, lastYear)}-${two(random.whole(3, 11))}-${two(random.whole(1, 28))}`
}
