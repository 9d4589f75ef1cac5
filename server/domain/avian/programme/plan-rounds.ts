import { distance } from '@turf/turf'
import type { Position } from '../../feeder/geometry.ts'
import { type DayRange, longestRange, sharedRanges } from '../nests/calendar-days.ts'
import type { Candidate } from './candidate.ts'
import { driveOrder } from './drive-order.ts'
import type { Round } from './programme.ts'
import type { VisitCluster } from './visit-clusters.ts'

/** Visits farther from each other are not driven on one day. Assumption. */
const LONGEST_HOP_M = 15_000

/**
 * Joins visits to rounds: as many as a crew does in a day, each next one the nearest that still fits
 * and shares a free day. A visit of more poles is a round of several days by itself. By the first
 * day on which they may be driven.
 */
export function planRounds(clusters: readonly VisitCluster[], polesPerCrewDay: number): Round[] {
  const left = new Set(clusters.toSorted((a, b) => b.poles.length - a.poles.length))
  const rounds: Round[] = []
  for (const cluster of left) {
    left.delete(cluster)
    rounds.push(roundOf(dayFrom(cluster, left, polesPerCrewDay), polesPerCrewDay))
  }
  return rounds.sort(
    (a, b) => a.earliest.localeCompare(b.earliest) || a.latest.localeCompare(b.latest),
  )
}

/** Takes from `left` what goes into one day with the first visit. */
function dayFrom(
  first: VisitCluster,
  left: Set<VisitCluster>,
  polesPerCrewDay: number,
): VisitCluster {
  let day = first
  for (;;) {
    const room = polesPerCrewDay - day.poles.length
    const next = nearest(day, left, room)
    if (!next) return day
    left.delete(next)
    day = {
      poles: [...day.poles, ...next.poles],
      free: sharedRanges(day.free, next.free),
    }
  }
}

function nearest(
  day: VisitCluster,
  left: ReadonlySet<VisitCluster>,
  room: number,
): VisitCluster | null {
  let best: VisitCluster | null = null
  let bestM = LONGEST_HOP_M
  for (const other of left) {
    if (other.poles.length > room) continue
    const awayM = wayBetweenM(day.poles, other.poles)
    if (awayM > bestM || sharedRanges(day.free, other.free).length === 0) continue
    best = other
    bestM = awayM
  }
  return best
}

/** Between the two places that lie nearest to each other. */
function wayBetweenM(some: readonly Candidate[], others: readonly Candidate[]): number {
  const between = (a: Position, b: Position) => distance(a, b, { units: 'meters' })
  return some.reduce(
    (least, { at }) => others.reduce((less, other) => Math.min(less, between(at, other.at)), least),
    Number.POSITIVE_INFINITY,
  )
}

function roundOf({ poles, free }: VisitCluster, polesPerCrewDay: number): Round {
  const drive = driveOrder(poles)
  const { from, to } = longestRange(free) ?? neverFree()
  return {
    poles: drive.stops.map(({ id }) => id),
    driveM: drive.driveM,
    crewDays: poles.length / polesPerCrewDay,
    earliest: from,
    latest: to,
  }
}

function neverFree(): DayRange {
  throw new Error('Expected poles of one round to share a free day, got none.')
}
