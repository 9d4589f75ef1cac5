import { lineString, nearestPointOnLine, point } from '@turf/turf'
import type { Position } from '#domain/feeder/geometry.ts'
import type { Access } from '#domain/feeder/land.ts'
import { type WayTo, wayTo } from './bearing.ts'

export interface NearestAccess {
  readonly access: Access
  /** From the pole to the nearest point of the road, track or gate. */
  readonly way: WayTo
  /** That nearest point. */
  readonly at: Position
}

export interface AccessToPole {
  /** Nearest road or track; null where the feeder has none. */
  readonly road: NearestAccess | null
  readonly gate: NearestAccess | null
}

/** How a truck gets near a pole. The figures are straight lines over the ground, not driving routes. */
export function accessToPole(pole: Position, access: readonly Access[]): AccessToPole {
  const ways = access
    .map((item) => nearestOn(pole, item))
    .sort((a, b) => a.way.distanceM - b.way.distanceM)
  return {
    road: ways.find((found) => found.access.kind !== 'gate') ?? null,
    gate: ways.find((found) => found.access.kind === 'gate') ?? null,
  }
}

function nearestOn(pole: Position, access: Access): NearestAccess {
  const nearest = nearestPointOnLine(lineString(access.path), point(pole))
  const [lon = pole[0], lat = pole[1]] = nearest.geometry.coordinates
  const at: Position = [lon, lat]
  return { access, at, way: wayTo(pole, at) }
}
