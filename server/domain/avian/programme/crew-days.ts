import { type DayRange, daysIn, longestRange } from '../nests/calendar-days.ts'
import type { VisitCluster } from './visit-clusters.ts'

export interface Crews {
  readonly crews: number
  readonly polesPerCrewDay: number
}

/** Poles that the crews have days for in a run of days. */
export function polesInDays(days: DayRange, { crews, polesPerCrewDay }: Crews): number {
  return Math.floor(Math.max(0, daysIn(days)) * crews * polesPerCrewDay + 1e-9)
}

/**
 * Visits that the crews can do on the days that nests leave free. Where more poles have to be done
 * within a run of days than there are crew days in it, those of the least worth go, until it fits.
 * The test over every run from one first day to one last day is enough, as work can be split over
 * days (Hall's condition for windows).
 */
export function fitIntoDays(clusters: readonly VisitCluster[], crews: Crews): VisitCluster[] {
  let kept = [...clusters]
  for (;;) {
    const run = overfullRun(kept, crews)
    if (!run) return kept
    kept = withoutLeast(kept, run)
  }
}

const windowOf = ({ free }: VisitCluster): DayRange | null => longestRange(free)

function isInside(cluster: VisitCluster, { from, to }: DayRange): boolean {
  const window = windowOf(cluster)
  return window !== null && window.from >= from && window.to <= to
}

function overfullRun(clusters: readonly VisitCluster[], crews: Crews): DayRange | null {
  const windows = clusters.flatMap((cluster) => windowOf(cluster) ?? [])
  const firsts = [...new Set(windows.map(({ from }) => from))]
  const lasts = [...new Set(windows.map(({ to }) => to))]
  for (const from of firsts) {
    for (const to of lasts) {
      if (from > to) continue
      const inside = clusters.filter((cluster) => isInside(cluster, { from, to }))
      const poles = inside.reduce((sum, cluster) => sum + cluster.poles.length, 0)
      if (poles > polesInDays({ from, to }, crews)) return { from, to }
    }
  }
  return null
}

function withoutLeast(clusters: readonly VisitCluster[], run: DayRange): VisitCluster[] {
  const least = clusters
    .filter((cluster) => isInside(cluster, run))
    .flatMap(({ poles }) => poles)
    .reduce((less, pole) => (pole.reduction < less.reduction ? pole : less))
  return clusters
    .map((cluster) => ({ ...cluster, poles: cluster.poles.filter((pole) => pole !== least) }))
    .filter(({ poles }) => poles.length > 0)
}
