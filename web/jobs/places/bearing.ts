import { bearing, distance, point } from '@turf/turf'
import type { Position } from '#domain/feeder/geometry.ts'
import { compassWord } from '#domain/units/compass-word.ts'

export interface WayTo {
  /** Great-circle distance on a sphere, metres; within 0.6 % of the ellipsoid. */
  readonly distanceM: number
  /** Clockwise from true north, 0 to below 360 degrees. */
  readonly bearingDeg: number
}

export function wayTo(from: Position, to: Position): WayTo {
  const start = point(from)
  const end = point(to)
  return {
    distanceM: distance(start, end, { units: 'meters' }),
    bearingDeg: (bearing(start, end) + 360) % 360,
  }
}

/** "312° true, north-west". */
export function bearingText(bearingDeg: number): string {
  return `${Math.round(bearingDeg) % 360}° true, ${compassWord(bearingDeg)}`
}
