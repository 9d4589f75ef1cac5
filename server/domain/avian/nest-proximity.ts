import { M_PER_MILE, milesOfMetres } from '#domain/units/length.ts'
import type { Nest } from '../feeder/birds.ts'
import type { Position } from '../feeder/geometry.ts'
import type { BirdSettings } from './bird-settings.ts'
import { PointGrid } from './exposure/point-grid.ts'
import { type NestBuffer, nestBuffer } from './nests/buffer-sets.ts'
import { isDayInSeason } from './nests/day-in-season.ts'

/**
 * Half a mile: the widest nest buffer that one state's recommendation gives for eagles and large
 * falcons (recommended raptor buffers as printed in a Colorado mining permit record, DRMS 948905,
 * table 10: golden and bald eagle 0.5 mile; page seen). Advisory.
 */
export const NEAR_NEST_M = M_PER_MILE / 2

export interface NearbyNest {
  readonly nest: Nest
  readonly distanceM: number
  readonly buffer: NestBuffer
  readonly isInBuffer: boolean
  /** Whether the day asked for lies in the season of its buffer. */
  readonly isInSeason: boolean
}

/**
 * Nests near a place, nearest first: those within half a mile, and those whose own buffer reaches
 * further and holds the place.
 *
 * @param day Calendar day of the work in question, as "2027-02-15".
 */
export function nearbyNests(
  at: Position,
  nests: readonly Nest[],
  day: string,
  settings?: BirdSettings,
): NearbyNest[] {
  const buffers = new Map(nests.map((nest) => [nest.id, nestBuffer(nest, settings)]))
  const reachM = Math.max(NEAR_NEST_M, ...[...buffers.values()].map(({ distanceM }) => distanceM))
  return new PointGrid(nests, (nest) => nest.at, reachM)
    .within(at, reachM)
    .flatMap(({ item: nest, distanceM }) => {
      const buffer = buffers.get(nest.id)
      if (!buffer) return []
      const isInBuffer = distanceM <= buffer.distanceM
      if (!isInBuffer && distanceM > NEAR_NEST_M) return []
      const isInSeason = isDayInSeason(day, buffer.from, buffer.to)
      return [{ nest, distanceM, buffer, isInBuffer, isInSeason }]
    })
}

/** "Golden eagle nest (in use) 0.31 mile away, inside its advisory buffer, in season on …" */
export function nestInWords({ nest, distanceM, isInBuffer, isInSeason }: NearbyNest): string {
  const status = nest.status === 'unknown' ? 'use unknown' : nest.status
  return [
    `${capitalised(nest.species)} nest (${status}) ${milesOfMetres(distanceM).toFixed(2)} mile away`,
    isInBuffer ? 'inside its advisory buffer' : 'outside its advisory buffer',
    isInSeason ? 'in season on the chosen day.' : 'out of season on the chosen day.',
  ].join(', ')
}

/** Ids of the poles within half a mile of a nest in use. */
export function polesNearNestsInUse(
  poles: readonly { readonly id: string; readonly at: Position }[],
  nests: readonly Nest[],
): Set<string> {
  const inUse = new PointGrid(
    nests.filter(({ status }) => status === 'in use'),
    ({ at }) => at,
    NEAR_NEST_M,
  )
  return new Set(
    poles.filter(({ at }) => inUse.within(at, NEAR_NEST_M).length > 0).map(({ id }) => id),
  )
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
