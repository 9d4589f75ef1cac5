import { nearestOn, pointAlong } from './curve.ts'
import { trunkOf } from './devices.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { LaidPole } from './lay-line.ts'
import { away, distance, type Point } from './plane.ts'

export interface PlaceBesideTrunk {
  readonly at: Point
  /** Heading of the trunk there. */
  readonly headingDeg: number
}

/** Point `km` out along the trunk and `leftM` metres to the left of it (negative: right). */
export function besideTrunk(laid: LaidFeeder, km: number, leftM: number): PlaceBesideTrunk {
  const { route } = trunkOf(laid)
  const { point, headingDeg } = nearestOn(route, pointAlong(route, km * 1_000))
  return { at: away(point, headingDeg - 90, leftM), headingDeg }
}

export function nearestPole(laid: LaidFeeder, to: Point): LaidPole {
  return laid.poles.reduce((best, pole) =>
    distance(pole.at, to) < distance(best.at, to) ? pole : best,
  )
}
