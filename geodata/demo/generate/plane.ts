import type { Position } from '#domain/feeder/geometry.ts'

/** Metres east and north of the substation. */
export type Point = readonly [xM: number, yM: number]
export type Line = readonly Point[]

/** Where the invented valley is laid down: emptyish high plains, a coordinate and nothing more. */
const ORIGIN: Position = [-106.9, 43.55]
/** One degree of a great circle on a sphere of the IUGG mean radius, metres. */
const M_PER_DEGREE = (6_371_008.8 * Math.PI) / 180
const M_PER_DEGREE_LON = M_PER_DEGREE * Math.cos((ORIGIN[1] * Math.PI) / 180)

/** Six decimals are about 0.1 m. */
export function positionOf([xM, yM]: Point): Position {
  return [roundTo(ORIGIN[0] + xM / M_PER_DEGREE_LON, 6), roundTo(ORIGIN[1] + yM / M_PER_DEGREE, 6)]
}

export function roundTo(value: number, decimals: number): number {
  const rounded = Number(value.toFixed(decimals))
  return rounded === 0 ? 0 : rounded
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1])
}

/** Point on the way from `a` (share 0) to `b` (share 1). */
export function between(a: Point, b: Point, share: number): Point {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
}

/** Point `lengthM` away on a compass heading: 0 north, 90 east. */
export function away(from: Point, headingDeg: number, lengthM: number): Point {
  const angle = (headingDeg * Math.PI) / 180
  return [from[0] + Math.sin(angle) * lengthM, from[1] + Math.cos(angle) * lengthM]
}

/** Compass heading from one point to another, 0 to 360. */
export function headingDeg(from: Point, to: Point): number {
  return ((Math.atan2(to[0] - from[0], to[1] - from[1]) * 180) / Math.PI + 360) % 360
}

/** How far the way turns at `at`, degrees, positive to the right. */
export function turnDeg(before: Point, at: Point, after: Point): number {
  return ((headingDeg(at, after) - headingDeg(before, at) + 540) % 360) - 180
}
