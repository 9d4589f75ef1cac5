import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part, Point } from '#domain/avian/pole-top/part.ts'
import { spreadLabels } from './spread-labels.ts'
import { acrossM, type Frame, type Spot, spotOf, VIEWS, type View } from './view-frame.ts'

/** A pair with the number under which list and drawing know it. */
export interface NumberedPair {
  readonly number: number
  readonly pair: ContactPair
  /** Pairs of the same two labels, this one with them: a jumper in pieces is one jumper. */
  readonly places: number
}

/** A dimension line between two surfaces, with its label in the margin. */
export interface PairMark extends NumberedPair {
  readonly ends: readonly [Spot, Spot]
  readonly middle: Spot
  readonly label: Spot
  readonly side: 'left' | 'right'
}

const LABEL_STEP_PX = 24
const LABEL_HALF_PX = 12

/** Dimension lines and labels of one view; no two labels overlap, and leaders of a side do not cross. */
export function pairMarks(pairs: readonly NumberedPair[], frame: Frame): PairMark[] {
  const drawn = pairs.map((numbered) => {
    const ends = endsOf(numbered.pair, frame)
    return { ...numbered, ends, middle: between(...ends) }
  })
  const sides = sidesOf(drawn, frame)
  return (['left', 'right'] as const).flatMap((side) => {
    const here = drawn.filter((_, index) => sides[index] === side)
    const heights = spreadLabels(
      here.map(({ middle }) => middle.y),
      LABEL_STEP_PX,
      LABEL_HALF_PX,
      frame.heightPx - LABEL_HALF_PX,
    )
    return here.map((mark, index) => ({
      ...mark,
      side,
      label: { x: side === 'left' ? 0 : frame.widthPx, y: heights[index] ?? 0 },
    }))
  })
}

/** The view in which a pair's gap is seen at its longest; the front where both are alike. */
export function viewOfPair({ at: [a, b] }: ContactPair): View {
  const [front, side] = VIEWS.map((view) => Math.abs(acrossM(view, a) - acrossM(view, b)))
  return (front ?? 0) >= (side ?? 0) - 1e-9 ? 'front' : 'side'
}

/** Toward the nearer edge, but no side takes more than its share: half, rounded up. */
function sidesOf(marks: readonly { readonly middle: Spot }[], frame: Frame): ('left' | 'right')[] {
  const order = marks
    .map((_, index) => index)
    .sort((a, b) => columnOf(marks, a) - columnOf(marks, b))
  const share = Math.ceil(marks.length / 2)
  const leftCount = marks.filter(({ middle }) => middle.x < frame.axisPx).length
  const left = Math.max(marks.length - share, Math.min(share, leftCount))
  const sides = new Array<'left' | 'right'>(marks.length).fill('right')
  for (const index of order.slice(0, left)) sides[index] = 'left'
  return sides
}

const columnOf = (marks: readonly { readonly middle: Spot }[], index: number): number =>
  marks[index]?.middle.x ?? 0

/** From surface to surface: the parts' half widths, which are horizontal, are taken off. */
function endsOf({ partA, partB, at: [a, b] }: ContactPair, frame: Frame): [Spot, Spot] {
  const from = onSurface(partA, a, b)
  const to = onSurface(partB, b, a)
  return [spotOf(frame, from), spotOf(frame, to)]
}

function onSurface({ radiusM }: Part, at: Point, toward: Point): Point {
  const [dx, dy] = [toward[0] - at[0], toward[1] - at[1]]
  const apartM = Math.hypot(dx, dy)
  const share = apartM === 0 ? 0 : Math.min(radiusM / apartM, 1)
  return [at[0] + dx * share, at[1] + dy * share, at[2]]
}

const between = (a: Spot, b: Spot): Spot => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 })
