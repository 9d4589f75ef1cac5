import { distance, point } from '@turf/turf'
import { M_PER_MILE } from '#domain/units/length.ts'
import type { Nest } from '../feeder/birds.ts'
import type { Position } from '../feeder/geometry.ts'
import { isMonthInSeason } from '../feeder/season.ts'

/**
 * Half a mile: the widest nest buffer that one state's recommendation gives for eagles and large
 * falcons (recommended raptor buffers as printed in a Colorado mining permit record, DRMS 948905,
 * table 10: golden and bald eagle 0.5 mile; page seen). Advisory.
 */
export const NEAR_NEST_M = M_PER_MILE / 2

export interface NearbyNest {
  readonly nest: Nest
  readonly distanceM: number
  readonly isInBuffer: boolean
  /** Whether any day of the month asked for lies in the nest's season. */
  readonly isInSeason: boolean
}

/**
 * Nests near a place, nearest first: those within half a mile, and those whose own buffer reaches
 * further and holds the place.
 *
 * @param month 1 to 12, the month of the work in question.
 */
export function nearbyNests(at: Position, nests: readonly Nest[], month: number): NearbyNest[] {
  return nests
    .map((nest) => nestFrom(at, nest, month))
    .filter(({ distanceM, isInBuffer }) => isInBuffer || distanceM <= NEAR_NEST_M)
    .sort((a, b) => a.distanceM - b.distanceM)
}

function nestFrom(at: Position, nest: Nest, month: number): NearbyNest {
  const distanceM = distance(point(at), point(nest.at), { units: 'meters' })
  return {
    nest,
    distanceM,
    isInBuffer: distanceM <= nest.bufferM,
    isInSeason: isMonthInSeason(month, nest.seasonFrom, nest.seasonTo),
  }
}
