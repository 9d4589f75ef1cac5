import type { Part, PartKind, Point } from '#domain/avian/pole-top/part.ts'

/** Front: along the line, arms lie across. Side: across the line, conductors run through. */
export const VIEWS = ['front', 'side'] as const
export type View = (typeof VIEWS)[number]

/** A place on the drawing, pixels from its upper left corner. */
export interface Spot {
  readonly x: number
  readonly y: number
}

/** Where metres come to lie on one view. Both views of a pole have the same scale. */
export interface Frame {
  readonly view: View
  readonly pxPerM: number
  readonly widthPx: number
  readonly heightPx: number
  /** Pixel column of the pole's axis. */
  readonly axisPx: number
  /** Height at the upper edge, metres above the pole top. */
  readonly topM: number
  /** Kept free at either side for labels. */
  readonly marginPx: number
}

/** These run out of the drawing, so that they do not set how much of the pole is shown. */
const RUNS_ON: readonly PartKind[] = ['pole', 'ground wire', 'guy']
const RUNS_ALONG: readonly PartKind[] = ['conductor', 'neutral']

/** Room above the highest part, so that an eagle fits in that stands there, metres. */
const ABOVE_M = 1.1
const BELOW_M = 0.3
const BESIDE_M = 0.2
const LEAST_HALF_M = 0.85
const MOST_HALF_M = 3.2
const MOST_HEIGHT_PX = 560
/** Kept free below for the scale. */
const FOOT_PX = 26

/** How far a point lies to the right of the pole in this view, metres. */
export function acrossM(view: View, [x, y]: Point): number {
  return view === 'front' ? x : y
}

export function spotOf(frame: Frame, point: Point): Spot {
  return {
    x: frame.axisPx + acrossM(frame.view, point) * frame.pxPerM,
    y: (frame.topM - point[2]) * frame.pxPerM,
  }
}

/**
 * Frames of both views for a drawing of this width.
 *
 * @param widthPx width of one view, with its label margins
 */
export function framesOf(parts: readonly Part[], widthPx: number, marginPx: number): Frame[] {
  const { topM, bottomM } = heightsOf(parts)
  const halvesM = VIEWS.map((view) => halfOf(parts, view))
  const pxPerM = Math.min(
    (widthPx / 2 - marginPx) / Math.max(...halvesM),
    MOST_HEIGHT_PX / (topM - bottomM),
  )
  return VIEWS.map((view) => ({
    view,
    pxPerM,
    widthPx,
    heightPx: (topM - bottomM) * pxPerM + FOOT_PX,
    axisPx: widthPx / 2,
    topM,
    marginPx,
  }))
}

function heightsOf(parts: readonly Part[]): { topM: number; bottomM: number } {
  const heightsM = parts
    .filter(({ kind }) => !RUNS_ON.includes(kind))
    .flatMap(({ from, to }) => [from[2], to[2]])
  return {
    topM: Math.max(0, ...heightsM) + ABOVE_M,
    bottomM: Math.min(-1, ...heightsM) - BELOW_M,
  }
}

function halfOf(parts: readonly Part[], view: View): number {
  const reachesM = parts
    .filter(({ kind }) => !RUNS_ON.includes(kind))
    .map((part) => nearOrFarM(part, view) + part.radiusM)
  return Math.min(MOST_HALF_M, Math.max(LEAST_HALF_M, ...reachesM) + BESIDE_M)
}

/** How far to the side a part reaches; of what runs on along the line, where it comes nearest. */
function nearOrFarM({ kind, from, to }: Part, view: View): number {
  const [a, b] = [acrossM(view, from), acrossM(view, to)]
  if (!RUNS_ALONG.includes(kind)) return Math.max(Math.abs(a), Math.abs(b))
  return a * b < 0 ? 0 : Math.min(Math.abs(a), Math.abs(b))
}
