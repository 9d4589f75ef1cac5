import type { Part, Point } from './part.ts'

/** Two parts of different potential that a bird of a size can touch at once. */
export interface ContactPair {
  readonly partA: Part
  readonly partB: Part
  /** Between surfaces, where a bird bridges them most easily, metres. */
  readonly horizontalM: number
  readonly verticalM: number
  /** Straight line between the surfaces. */
  readonly distanceM: number
  /** The two places, on the centre lines of the parts. */
  readonly at: readonly [Point, Point]
  /** Share of the bird that the gap takes, below 1: the smaller, the tighter. */
  readonly share: number
  /** Id of a part on which the bird can stand meanwhile. */
  readonly perchId: string
}
