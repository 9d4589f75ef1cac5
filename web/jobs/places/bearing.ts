import { bearing, distance, point } from '@turf/turf'
import type { Position } from '#domain/feeder/geometry.ts'

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

const COMPASS_WORDS = [
  'north',
  'north-east',
  'east',
  'south-east',
  'south',
  'south-west',
  'west',
  'north-west',
] as const
export type CompassWord = (typeof COMPASS_WORDS)[number]

/** Nearest of the eight compass directions. */
export function compassWord(bearingDeg: number): CompassWord {
  const index = Math.round((((bearingDeg % 360) + 360) % 360) / 45) % COMPASS_WORDS.length
  return COMPASS_WORDS[index] ?? 'north'
}

/** "312° true, north-west". */
export function bearingText(bearingDeg: number): string {
  return `${Math.round(bearingDeg) % 360}° true, ${compassWord(bearingDeg)}`
}
