import { type DayRange, sharedRanges } from '../nests/calendar-days.ts'
import { bestChoice } from './best-choice.ts'
import type { Candidate } from './candidate.ts'
import { fitIntoDays, polesInDays } from './crew-days.ts'
import type { ProgrammeRequest } from './programme.ts'
import type { VisitCluster } from './visit-clusters.ts'
import { centsOf, type Limits, type VisitGroup } from './visit-group.ts'

export interface ChosenVisits {
  readonly visits: readonly VisitCluster[]
  /** Ids of poles worth their money that found no crew day between nests. */
  readonly crowdedOut: ReadonlySet<string>
  /** What could be chosen from in the end. */
  readonly groups: readonly VisitGroup[]
  readonly limits: Limits
  /** No choice within the limits is worth more than this. */
  readonly bound: number
}

/**
 * The best poles for the money. Where they do not fit the days that nests leave free, those that
 * find no day are taken out and the money is spent anew; the bound stays that of the first choice.
 */
export function chooseVisits(
  clusters: readonly VisitCluster[],
  request: ProgrammeRequest,
  onProgress: (done: number, total: number) => void,
): ChosenVisits {
  const limits = {
    cents: Math.floor(request.budgetUsd * 100 + 1e-6),
    poles: polesInDays(request, request),
  }
  const crowdedOut = new Set<string>()
  let bound = Number.POSITIVE_INFINITY
  for (;;) {
    const open = withPoles(clusters, ({ id }) => !crowdedOut.has(id))
    const groups = open.map((cluster) => groupOf(cluster, request.visitCostUsd))
    const best = bestChoice(groups, limits, { onProgress })
    if (crowdedOut.size === 0) bound = best.bound
    const wanted = new Set(best.items.map(({ poleId }) => poleId))
    const visits = fitIntoDays(
      withPoles(open, ({ id }) => wanted.has(id)),
      request,
    )
    const fitting = new Set(visits.flatMap(({ poles }) => poles.map(({ id }) => id)))
    const lost = [...wanted].filter((id) => !fitting.has(id))
    if (lost.length === 0) return { visits, crowdedOut, groups, limits, bound }
    for (const id of lost) crowdedOut.add(id)
  }
}

function groupOf({ poles }: VisitCluster, visitCostUsd: number): VisitGroup {
  return {
    visitCents: centsOf(visitCostUsd),
    items: poles.map(({ id, measures, reduction }) => ({
      poleId: id,
      cents: centsOf(measures.costUsd),
      worth: reduction,
    })),
  }
}

/** Visits with some of their poles, and the days that those share. */
function withPoles(
  clusters: readonly VisitCluster[],
  isKept: (pole: Candidate) => boolean,
): VisitCluster[] {
  return clusters
    .map(({ poles }) => poles.filter(isKept))
    .filter((poles) => poles.length > 0)
    .map((poles) => ({ poles, free: freeForAll(poles) }))
}

function freeForAll(poles: readonly Candidate[]): readonly DayRange[] {
  return poles.map(({ free }) => free).reduce(sharedRanges)
}
