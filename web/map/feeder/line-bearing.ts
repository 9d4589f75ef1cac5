import type { Position } from '#domain/feeder/geometry.ts'

/** Compass bearing from one place to another near it, degrees clockwise from north. */
export function bearingDeg([lonA, latA]: Position, [lonB, latB]: Position): number {
  const eastward = (lonB - lonA) * Math.cos((((latA + latB) / 2) * Math.PI) / 180)
  return ((Math.atan2(eastward, latB - latA) * 180) / Math.PI + 360) % 360
}

/**
 * Direction of the line at a pole, without a sense: the bisector of the spans that meet there.
 * Doubling the angles makes opposite bearings count as one direction.
 */
export function lineDirectionDeg(bearings: readonly number[]): number {
  let x = 0
  let y = 0
  for (const bearing of bearings) {
    const doubled = (bearing * Math.PI) / 90
    x += Math.cos(doubled)
    y += Math.sin(doubled)
  }
  return ((Math.atan2(y, x) * 90) / Math.PI + 180) % 180
}

/**
 * Turn that lays the horizontal axis of a symbol along the line and keeps it upright, degrees
 * from −90 to 90.
 */
export function uprightTurnDeg(directionDeg: number): number {
  return directionDeg - 90
}
