import type { Part, Point } from '#domain/avian/pole-top/part.ts'
import { isSteep, standingSurface } from '#domain/avian/pole-top/standing-surface.ts'
import { type Frame, type Spot, spotOf } from './view-frame.ts'

/** Where a bird is: its feet, and the part that it stands on, if any. */
export interface BirdPlace {
  readonly feetAt: Point
  readonly partId: string | null
}

/** One press of an arrow key, metres: two inches. */
export const STEP_M = 0.0508
/** The feet hold on to a perch that is so near in the view, pixels. */
const SNAP_PX = 14

/** Feet moved by so much within a view; the other axis stays. */
export function moved(frame: Frame, [x, y, z]: Point, rightM: number, upM: number): Point {
  return frame.view === 'front' ? [x + rightM, y, z + upM] : [x, y + rightM, z + upM]
}

/** Feet at a spot of the drawing; what the view does not show stays as it was. */
export function feetAtSpot(frame: Frame, feetAt: Point, spot: Spot): Point {
  const here = spotOf(frame, feetAt)
  return moved(frame, feetAt, (spot.x - here.x) / frame.pxPerM, (here.y - spot.y) / frame.pxPerM)
}

/**
 * Lets the feet hold on to the perch that is nearest in the view, at the nearest place along it and
 * at its depth; in the air where none is near.
 */
export function onNearestPerch(
  parts: readonly Part[],
  frame: Frame,
  feetAt: Point,
  snapPx = SNAP_PX,
): BirdPlace {
  const spot = spotOf(frame, feetAt)
  const near = parts
    .filter(({ canPerch }) => canPerch)
    .map((part) => nearestOn(part, frame, spot))
    .filter(({ awayPx }) => awayPx <= snapPx)
    .sort((a, b) => a.awayPx - b.awayPx)[0]
  return near ? { feetAt: near.at, partId: near.partId } : { feetAt, partId: null }
}

/** What is steep is stood on at its top; everything else anywhere along it. */
function nearestOn(part: Part, frame: Frame, spot: Spot) {
  const surface = standingSurface(part)
  const at = along(surface, shareNearest(surface, frame, spot))
  const { x, y } = spotOf(frame, at)
  const widthPx = isSteep(part) ? part.radiusM * frame.pxPerM : 0
  const sidePx = Math.max(0, Math.abs(x - spot.x) - widthPx)
  return { partId: part.id, at, awayPx: Math.hypot(sidePx, y - spot.y) }
}

type Stretch = Pick<Part, 'from' | 'to'>

function shareNearest(stretch: Stretch, frame: Frame, spot: Spot): number {
  const from = spotOf(frame, stretch.from)
  const to = spotOf(frame, stretch.to)
  const [dx, dy] = [to.x - from.x, to.y - from.y]
  const squared = dx * dx + dy * dy
  if (squared === 0) return 0.5
  const share = ((spot.x - from.x) * dx + (spot.y - from.y) * dy) / squared
  return Math.max(0, Math.min(1, share))
}

function along({ from, to }: Stretch, share: number): Point {
  const at = (axis: 0 | 1 | 2) => from[axis] + share * (to[axis] - from[axis])
  return [at(0), at(1), at(2)]
}
