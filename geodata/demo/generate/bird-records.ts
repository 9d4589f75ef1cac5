import { besideTrunk, nearestPole } from './beside-trunk.ts'
import { blob } from './circle.ts'
import type { Service } from './customers.ts'
import type { FeederDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import { NEST_RULES } from './nest-rules.ts'
import { away, distance, type Point, positionOf } from './plane.ts'
import { seededRandom } from './seeded-random.ts'
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

type IncidentDraft = FeederDraft['incidents'][number]

/** What a coordinator wrote down of a find: everything but where it was. */
export interface IncidentPlan extends Omit<IncidentDraft, 'id' | 'at' | 'pole'> {
  readonly km: number
  readonly leftM: number
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
