import type { Position } from '../feeder/geometry.ts'

/** Mean earth radius, metres (IUGG). */
const EARTH_RADIUS_M = 6_371_008.8
const RADIANS = Math.PI / 180

/** Great-circle distance between two positions on a sphere, metres (haversine). */
export function distanceM(a: Position, b: Position): number {
  const sinLat = Math.sin(((b[1] - a[1]) * RADIANS) / 2)
  const sinLon = Math.sin(((b[0] - a[0]) * RADIANS) / 2)
  const h = sinLat * sinLat + Math.cos(a[1] * RADIANS) * Math.cos(b[1] * RADIANS) * sinLon * sinLon
  return 2 * EARTH_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(h)))
}

/** Length of a line along its positions, metres. */
export function pathLengthM(path: readonly Position[]): number {
  let total = 0
  for (let i = 1; i < path.length; i++) {
    const from = path[i - 1]
    const to = path[i]
    if (from && to) total += distanceM(from, to)
  }
  return total
}
