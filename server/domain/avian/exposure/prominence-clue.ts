import type { Position } from '../../feeder/geometry.ts'
import { type Clue, NOT_KNOWN, NOTHING_THERE } from './clue.ts'
import { PointGrid } from './point-grid.ts'
import type { Contour } from './surroundings.ts'

/** Around a pole its ground is held against what lies within so much. Judgement. */
const AROUND_M = 800
/** A pole that stands so much above the ground around it is as prominent as any. Judgement. */
const FULL_RISE_M = 30
/** Fewer places with a height around a pole tell nothing. */
const FEWEST_HEIGHTS = 5

interface Height {
  readonly at: Position
  readonly heightM: number
}

/**
 * How far the ground at a place stands above the ground around it: its own height by the contours
 * near it, weighted by the inverse square of their distance, less the mean of all heights within
 * 800 m. Unknown where too few contours are near.
 */
export function prominenceClues(contours: readonly Contour[]): (at: Position) => Clue {
  if (contours.length === 0) return () => NOT_KNOWN
  const heights: Height[] = contours.flatMap(({ path, heightM }) =>
    path.map((at) => ({ at, heightM })),
  )
  const grid = new PointGrid(heights, ({ at }) => at, AROUND_M)
  return (at) => {
    const near = grid.within(at, AROUND_M)
    if (near.length < FEWEST_HEIGHTS) return NOT_KNOWN
    let [own, weights, sum] = [0, 0, 0]
    for (const { item, distanceM } of near) {
      const weight = 1 / Math.max(distanceM, 1) ** 2
      own += weight * item.heightM
      weights += weight
      sum += item.heightM
    }
    const riseM = own / weights - sum / near.length
    if (riseM <= 0) return NOTHING_THERE
    return {
      value: Math.min(1, riseM / FULL_RISE_M),
      reason: riseM >= 3 ? `ground about ${riseM.toFixed(0)} m above its surroundings` : '',
    }
  }
}
