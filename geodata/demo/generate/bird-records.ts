import { besideTrunk, nearestPole } from './beside-trunk.ts'
import { blob } from './circle.ts'
import type { Service } from './customers.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { NEST_RULES } from './nest-rules.ts'
import { away, distance, type Point, positionOf } from './plane.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'
import { SEED } from './valley.ts'

export interface NestPlan {
  readonly rule: keyof typeof NEST_RULES
  readonly km: number
  readonly leftM: number
  readonly status: 'in use' | 'not in use' | 'unknown'
  readonly lastSeen: string
}

/** Nests are set beside the trunk by hand, so that what they rule out can be chosen. */
export function nestsOf(laid: LaidFeeder, plans: readonly NestPlan[]): FeederDraft['nests'] {
  return plans.map(({ rule, km, leftM, status, lastSeen }, i) => ({
    id: `nest-${laid.letter}${i + 1}`,
    at: positionOf(besideTrunk(laid, km, leftM).at),
    ...NEST_RULES[rule],
    status,
    lastSeen,
  }))
}

export interface HabitatPlan {
  readonly name: string
  readonly species: string
  readonly km: number
  readonly leftM: number
  readonly radiusM: number
  readonly stretch: number
}

export function habitatOf(laid: LaidFeeder, plans: readonly HabitatPlan[]): FeederDraft['habitat'] {
  return plans.map(({ name, species, km, leftM, radiusM, stretch }, i) => {
    const { at, headingDeg } = besideTrunk(laid, km, leftM)
    const ring = blob(at, radiusM, seededRandom(SEED, `${laid.id} habitat ${i}`), {
      stretch,
      headingDeg,
    })
    return { id: `habitat-${laid.letter}${i + 1}`, name, species, area: [ring.map(positionOf)] }
  })
}

export interface IncidentPlan {
  readonly km: number
  readonly leftM: number
  readonly foundOn: string
  readonly species: string
  readonly cause: FeederDraft['incidents'][number]['cause']
  readonly note: string
  /** A find out in the open belongs to no pole. */
  readonly isAtPole: boolean
}

/** Finds at a pole lie a few steps from the transformer pole nearest to the place planned. */
export function incidentsOf(
  laid: LaidFeeder,
  services: readonly Service[],
  plans: readonly IncidentPlan[],
): FeederDraft['incidents'] {
  return plans.map(({ km, leftM, isAtPole, ...rest }, i) => {
    const { at } = besideTrunk(laid, km, leftM)
    const pole = nearestService(services, at) ?? nearestPole(laid, at)
    const found = isAtPole ? away(pole.at, 40 * i, 3 + (i % 4)) : at
    return {
      id: `find-${laid.letter}${i + 1}`,
      at: positionOf(found),
      ...(isAtPole && { pole: pole.id }),
      ...rest,
    }
  })
}

function nearestService(services: readonly Service[], to: Point) {
  return [...services].sort((a, b) => distance(a.pole.at, to) - distance(b.pole.at, to))[0]?.pole
}

type ProtectionDraft = FeederDraft['protections'][number]

/** Covers and perches so far: near the nests first, and at the poles where birds were found. */
export function protectionsOf(
  laid: LaidFeeder,
  services: readonly Service[],
  nestPlans: readonly NestPlan[],
  reachM: number,
): FeederDraft['protections'] {
  const random = seededRandom(SEED, `${laid.id} protections`)
  const nests = nestPlans.map(({ km, leftM }) => besideTrunk(laid, km, leftM).at)
  const near = services.filter(({ pole }) => nests.some((nest) => distance(nest, pole.at) < reachM))
  return near.flatMap((service) => (random.chance(0.62) ? itemsOn(service, random) : []))
}

function itemsOn({ pole, phases }: Service, random: SeededRandom): ProtectionDraft[] {
  const visitedOn = dateIn(random, 2016, 2025)
  const item = (
    suffix: string,
    kind: ProtectionDraft['kind'],
    what: string,
    note?: string,
  ): ProtectionDraft => ({
    id: `item-${pole.id}-${suffix}`,
    pole: pole.id,
    kind,
    what,
    ...stateOf(random, visitedOn),
    ...(note && { note }),
  })
  const words = phases.length === 1 ? `${phases} phase` : `${phases.length} phases`
  return [
    item('bushing', 'cover', `bushing cover, ${words}`),
    item('cutout', 'cover', `cutout cover, ${words}`),
    ...(random.chance(0.45)
      ? [item('jumper', 'cover', `insulated jumper to transformer, ${words}`)]
      : []),
    ...(random.chance(0.2) ? [item('arrester', 'guard', `arrester cap, ${words}`)] : []),
    ...(random.chance(0.12)
      ? [item('perch', 'perch', 'raised perch above the pole top', 'seen in use')]
      : []),
  ]
}

function stateOf(random: SeededRandom, visitedOn: string): Pick<ProtectionDraft, 'state' | 'on'> {
  const draw = random.next()
  if (draw < 0.18) return { state: 'planned', on: dateIn(random, 2026, 2026) }
  if (draw < 0.84) return { state: 'on', on: visitedOn }
  if (draw < 0.95) return { state: 'failed', on: dateIn(random, 2024, 2025) }
  return { state: 'removed', on: dateIn(random, 2022, 2025) }
}

function dateIn(random: SeededRandom, firstYear: number, lastYear: number): string {
  const two = (value: number): string => String(value).padStart(2, '0')
  return `${random.whole(firstYear, lastYear)}-${two(random.whole(3, 11))}-${two(random.whole(1, 28))}`
}
