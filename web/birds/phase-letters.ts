import type { Part } from '#domain/avian/pole-top/part.ts'
import { type Frame, type Spot, spotOf } from './view-frame.ts'

export interface PhaseLetter {
  readonly partId: string
  readonly letter: string
  readonly at: Spot
}

const WIDTH_PX = 10
const HEIGHT_PX = 12
const AWAY_PX = 11
/** A second letter of the same phase so near says nothing new. */
const SAME_PX = 26

/** Where a letter may stand beside its part, best first. */
const PLACES: readonly Spot[] = [
  { x: 0, y: -AWAY_PX },
  { x: AWAY_PX, y: 0 },
  { x: -AWAY_PX, y: 0 },
  { x: 0, y: AWAY_PX },
]

/** Kinds that get their letter first, where there is not room for all. */
const ORDER: readonly Part['kind'][] = ['conductor', 'neutral', 'bushing', 'cutout', 'arrester']

/** Letters of the phases, and N, beside live parts; one that would cover another is left out. */
export function phaseLetters(parts: readonly Part[], frame: Frame): PhaseLetter[] {
  const placed: PhaseLetter[] = []
  const live = parts
    .filter((part) => letterOf(part) !== null && rankOf(part) < ORDER.length)
    .sort((a, b) => rankOf(a) - rankOf(b))
  for (const part of live) {
    const letter = letterOf(part) ?? ''
    const end = anchorOf(part, frame)
    if (placed.some((other) => other.letter === letter && apart(other.at, end) < SAME_PX)) continue
    const at = PLACES.map(({ x, y }) => ({ x: end.x + x, y: end.y + y })).find(
      (spot) => isInside(spot, frame) && placed.every((other) => !overlaps(other.at, spot)),
    )
    if (at) placed.push({ partId: part.id, letter, at })
  }
  return placed
}

function letterOf({ kind, potential }: Part): string | null {
  if (kind === 'neutral') return 'N'
  return potential === 'grounded' || potential === 'none' ? null : potential
}

const rankOf = ({ kind }: Part): number => {
  const rank = ORDER.indexOf(kind)
  return rank < 0 ? ORDER.length : rank
}

/** A wire across the view is named where it leaves the drawing, everything else at its start. */
function anchorOf(part: Part, frame: Frame): Spot {
  const from = spotOf(frame, part.from)
  const to = spotOf(frame, part.to)
  if (Math.abs(to.x - from.x) < 40) return from
  const right = from.x > to.x ? from : to
  return { x: Math.min(right.x, frame.widthPx - frame.marginPx - WIDTH_PX), y: right.y }
}

const apart = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y)

const overlaps = (a: Spot, b: Spot): boolean =>
  Math.abs(a.x - b.x) < WIDTH_PX && Math.abs(a.y - b.y) < HEIGHT_PX

const isInside = ({ x, y }: Spot, { widthPx, heightPx }: Frame): boolean =>
  x > WIDTH_PX && x < widthPx - WIDTH_PX && y > HEIGHT_PX && y < heightPx - HEIGHT_PX
