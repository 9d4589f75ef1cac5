import type { Position } from '#domain/feeder/geometry.ts'

/** West, south, east, north in degrees. */
export type Bounds = [number, number, number, number]

/** Half the width of the smallest view, degrees: one point alone still gets surroundings. */
const LEAST_REACH_DEG = 0.002

/** Smallest box around the positions; throws for none. */
export function boundsOf(positions: readonly Position[]): Bounds {
  if (positions.length === 0) throw new Error('Expected at least one position.')
  const lons = positions.map(([lon]) => lon)
  const lats = positions.map(([, lat]) => lat)
  return [
    Math.min(...lons) - LEAST_REACH_DEG,
    Math.min(...lats) - LEAST_REACH_DEG,
    Math.max(...lons) + LEAST_REACH_DEG,
    Math.max(...lats) + LEAST_REACH_DEG,
  ]
}
