import type { Part } from '#domain/avian/pole-top/part.ts'
import { clipToFrame } from './clip-to-frame.ts'
import { runningOn } from './running-on.ts'
import { type Frame, type Spot, spotOf } from './view-frame.ts'

/** A part as one view shows it. */
export interface PartShape {
  readonly part: Part
  readonly from: Spot
  readonly to: Spot
  /** Half of its width, never so thin that it cannot be seen. */
  readonly halfPx: number
  readonly lengthPx: number
  /** It runs toward the eye, or is a point. */
  readonly isEndOn: boolean
}

const LEAST_HALF_PX = 1.4
/** Shorter than this is drawn as seen from its end. */
const END_ON_PX = 3

export function shapeOf(part: Part, frame: Frame): PartShape {
  const drawn = runningOn(part)
  const [from, to] = clipToFrame(spotOf(frame, drawn.from), spotOf(frame, drawn.to), frame)
  const lengthPx = Math.hypot(to.x - from.x, to.y - from.y)
  return {
    part,
    from,
    to,
    halfPx: Math.max(LEAST_HALF_PX, part.radiusM * frame.pxPerM),
    lengthPx,
    isEndOn: lengthPx < END_ON_PX,
  }
}

/**
 * Corners of the part's outline: its centre line, widened by `morePx` on all sides, as an SVG path.
 */
export function outlineOf({ from, to, halfPx, lengthPx }: PartShape, morePx = 0): string {
  const along =
    lengthPx === 0
      ? { x: 0, y: 1 }
      : { x: (to.x - from.x) / lengthPx, y: (to.y - from.y) / lengthPx }
  const out = { x: -along.y * (halfPx + morePx), y: along.x * (halfPx + morePx) }
  const start = { x: from.x - along.x * morePx, y: from.y - along.y * morePx }
  const end = { x: to.x + along.x * morePx, y: to.y + along.y * morePx }
  const corners = [
    [start.x + out.x, start.y + out.y],
    [end.x + out.x, end.y + out.y],
    [end.x - out.x, end.y - out.y],
    [start.x - out.x, start.y - out.y],
  ]
  return `M${corners.map((corner) => corner.map(px).join(' ')).join('L')}Z`
}

/** Tenths of a pixel are fine enough. */
export function px(value: number): string {
  return String(Math.round(value * 10) / 10)
}
