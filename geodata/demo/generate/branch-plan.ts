import type { PhaseSet } from '#domain/units/phases.ts'
import { beside, nearestOn, partOf, smoothThrough } from './curve.ts'
import type { CustomerClassName } from './customer-classes.ts'
import { away, distance, type Line, type Point } from './plane.ts'
import type { SeededRandom } from './seeded-random.ts'
import type { Road, RoadKind } from './valley.ts'

/** Customers to be spread over the poles of a branch. */
export interface BranchCustomers {
  readonly homes?: number
  readonly ranches?: number
  readonly stockWells?: number
  /** Kilowatts of each pump at the peak. */
  readonly pumpsKw?: readonly number[]
  readonly shops?: number
  /** Homes on one town transformer each. */
  readonly homesPerTransformer?: number
  readonly special?: readonly SpecialLoad[]
}

export interface SpecialLoad {
  readonly name: string
  readonly customerClass: CustomerClassName
  readonly kw: number
  readonly powerFactor: number
  /** Share of the branch's length at which it stands. */
  readonly at: number
}

/** A line that leaves a pole of another, or the substation, and runs to its end. */
export interface BranchPlan {
  /** '' for the trunk; laterals are numbered. */
  readonly series: string
  readonly tap?: { readonly series: string; readonly km: number }
  readonly route: (start: Point, random: SeededRandom) => Line
  readonly phases: PhaseSet
  /** Conductor from that distance on. */
  readonly conductors: readonly { readonly fromKm: number; readonly size: ConductorSize }[]
  readonly spanM: number
  /** Lane or track made beside the lateral. */
  readonly way?: { readonly name: string; readonly kind: RoadKind; readonly leftM: number }
  readonly customers: BranchCustomers
  /** The last span is the open tie to the other feeder. */
  readonly isTie?: true
}

export type ConductorSize = '336' | '4-0' | '1-0' | '2' | '4'

/** The line beside a road from the place nearest one point to the place nearest another. */
export function along(road: Road, from: Point, to: Point, leftM: number): Point[] {
  const part = partOf(road.line, nearestOn(road.line, from).alongM, nearestOn(road.line, to).alongM)
  const isBackward = nearestOn(road.line, to).alongM < nearestOn(road.line, from).alongM
  return beside(part, isBackward ? -leftM : leftM)
}

/** A lateral that sets off on a heading and bends now and then as a ranch lane does. */
export function wandering(headingDeg: number, lengthM: number, bendDeg: number) {
  return (start: Point, random: SeededRandom): Line => {
    const controls: Point[] = [start]
    let at = start
    let heading = headingDeg
    for (let leftM = lengthM; leftM > 200; ) {
      const stepM = Math.min(leftM, random.between(420, 760))
      at = away(at, heading, stepM)
      controls.push(at)
      leftM -= stepM
      heading += (headingDeg - heading) * 0.5 + random.between(-bendDeg, bendDeg)
    }
    return smoothThrough(controls)
  }
}

/** A lateral along an existing road: from its tap pole slantwise to the roadside, then beside the road. */
export function joining(roadside: Line) {
  return (start: Point): Line => [start, ...roadside.filter((point) => distance(point, start) > 80)]
}

/** A lateral of straight pieces through given points. */
export function through(points: Line) {
  return (start: Point): Line => [start, ...points]
}
