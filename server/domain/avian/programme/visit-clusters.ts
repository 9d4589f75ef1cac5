import { distance } from '@turf/turf'
import { PointGrid } from '../exposure/point-grid.ts'
import { type DayRange, sharedRanges } from '../nests/calendar-days.ts'
import type { Candidate } from './candidate.ts'

/** Poles that are one visit, and the days on which all of them are free. */
export interface VisitCluster {
  readonly poles: readonly Candidate[]
  readonly free: readonly DayRange[]
}

/** Looked at for one visit, nearest first; more would take long and help nobody. */
const MOST_NEIGHBOURS = 500

/**
 * Parts the poles into visits: from the weightiest on, each takes the poles near it that no other
 * visit has, as long as any two lie within `sharedM` of each other and share a free day. Which poles
 * go together does not depend on the money.
 */
export function visitClusters(candidates: readonly Candidate[], sharedM: number): VisitCluster[] {
  const grid = new PointGrid(candidates, ({ at }) => at, Math.max(sharedM, 50))
  const taken = new Set<Candidate>()
  const clusters: VisitCluster[] = []
  for (const seed of candidates.toSorted((a, b) => b.reduction - a.reduction)) {
    if (taken.has(seed)) continue
    const cluster = clusterAround(seed, grid, taken, sharedM)
    for (const pole of cluster.poles) taken.add(pole)
    clusters.push(cluster)
  }
  return clusters
}

function clusterAround(
  seed: Candidate,
  grid: PointGrid<Candidate>,
  taken: ReadonlySet<Candidate>,
  sharedM: number,
): VisitCluster {
  const poles = [seed]
  let free = seed.free
  if (sharedM === 0) return { poles, free }
  for (const { item } of grid.within(seed.at, sharedM).slice(0, MOST_NEIGHBOURS)) {
    if (item === seed || taken.has(item)) continue
    if (poles.some((pole) => distance(pole.at, item.at, { units: 'meters' }) > sharedM)) continue
    const shared = sharedRanges(free, item.free)
    if (shared.length === 0) continue
    poles.push(item)
    free = shared
  }
  return { poles, free }
}
