import type { Area, Path } from '../../feeder/geometry.ts'

/** What is known of the land around the poles; nothing where a list is empty. */
export interface Surroundings {
  readonly ground: readonly GroundArea[]
  readonly contours: readonly Contour[]
}

export interface GroundArea {
  readonly area: Area
  /** As the land calls it: "sagebrush", "pine". */
  readonly kind: string
}

/** A line of equal height of the ground, metres above sea level. */
export interface Contour {
  readonly path: Path
  readonly heightM: number
}
