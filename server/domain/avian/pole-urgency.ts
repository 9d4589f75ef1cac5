import type { Incident, Protection } from '../feeder/birds.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Pole } from '../feeder/pole.ts'
import { NEAR_NEST_M, type NearbyNest, nearbyNests } from './nest-proximity.ts'
import { phaseCounts } from './phases-at-poles.ts'
import { assessSeparation, type PoleSeparation, type PoleVerdict } from './separation.ts'

/** A pole as the bird record knows it. */
export interface BirdPole {
  readonly pole: Pole
  readonly separation: PoleSeparation
  readonly nests: readonly NearbyNest[]
  readonly incidents: readonly Incident[]
  readonly items: readonly Protection[]
  readonly hasElectrocution: boolean
  readonly isNearNestInUse: boolean
  readonly failedItems: number
}

export interface BirdFigures {
  readonly poles: number
  readonly bridgeable: number
  readonly bridgeableNearNest: number
  readonly unknown: number
  readonly failedItems: number
}

/** How poles come into their order, each step within the one before. Common practice, no source. */
export const URGENCY_ORDER = [
  'Poles that an eagle can bridge, then poles not settled by what is recorded, then the others.',
  'Among them, first where a bird was electrocuted, confirmed or probable.',
  'Then within half a mile of a nest in use.',
  'Then where a guard, cover or perch has failed.',
  'Then the smallest gap against guidance, then the id.',
] as const

/**
 * Every real pole of the feeder with what the bird record holds of it, most urgent first.
 * Points that stand for no known pole are left out.
 *
 * @param protections Items that count now; the feeder's own list may be older than the store's.
 * @param month 1 to 12, for the nests' seasons.
 */
export function birdPoles(
  feeder: Feeder,
  protections: readonly Protection[],
  month: number,
): BirdPole[] {
  const phases = phaseCounts(feeder.spans)
  const incidents = groupByPole(feeder.incidents)
  const items = groupByPole(protections)
  return feeder.poles
    .filter((pole) => !pole.isAnonymousNode)
    .map((pole) => ({
      pole,
      separation: assessSeparation(pole, phases.get(pole.id) ?? 0),
      nests: nearbyNests(pole.at, feeder.nests, month),
      incidents: incidents.get(pole.id) ?? [],
      items: items.get(pole.id) ?? [],
    }))
    .map(withFlags)
    .sort(moreUrgentFirst)
}

/** What stands in the first line of the desk. */
export function birdFigures(poles: readonly BirdPole[]): BirdFigures {
  const bridgeable = poles.filter(({ separation }) => separation.verdict === 'bridgeable')
  return {
    poles: poles.length,
    bridgeable: bridgeable.length,
    bridgeableNearNest: bridgeable.filter(({ isNearNestInUse }) => isNearNestInUse).length,
    unknown: poles.filter(({ separation }) => separation.verdict === 'unknown').length,
    failedItems: poles.reduce((sum, { failedItems }) => sum + failedItems, 0),
  }
}

type Unflagged = Omit<BirdPole, 'hasElectrocution' | 'isNearNestInUse' | 'failedItems'>

function withFlags(found: Unflagged): BirdPole {
  return {
    ...found,
    hasElectrocution: found.incidents.some(({ cause }) => cause.endsWith('electrocution')),
    isNearNestInUse: found.nests.some(
      ({ nest, distanceM }) => nest.status === 'in use' && distanceM <= NEAR_NEST_M,
    ),
    failedItems: found.items.filter(({ state }) => state === 'failed').length,
  }
}

function groupByPole<Item extends { pole?: string }>(items: readonly Item[]): Map<string, Item[]> {
  const byPole = new Map<string, Item[]>()
  for (const item of items) {
    if (item.pole === undefined) continue
    const group = byPole.get(item.pole)
    if (group) group.push(item)
    else byPole.set(item.pole, [item])
  }
  return byPole
}

const VERDICT_ORDER: Readonly<Record<PoleVerdict, number>> = {
  bridgeable: 0,
  unknown: 1,
  sufficient: 2,
}

/** W-9 before W-10. */
const ID_ORDER = new Intl.Collator('en', { numeric: true })

function urgencyKey(found: BirdPole): readonly number[] {
  return [
    VERDICT_ORDER[found.separation.verdict],
    found.hasElectrocution ? 0 : 1,
    found.isNearNestInUse ? 0 : 1,
    found.failedItems > 0 ? 0 : 1,
    found.separation.worst?.shareOfGuidance ?? 1,
  ]
}

function moreUrgentFirst(a: BirdPole, b: BirdPole): number {
  const keyA = urgencyKey(a)
  const keyB = urgencyKey(b)
  for (const [index, value] of keyA.entries()) {
    const other = keyB[index] ?? 0
    if (value !== other) return value - other
  }
  return ID_ORDER.compare(a.pole.id, b.pole.id)
}
