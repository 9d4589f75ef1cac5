import type { Part, Point } from './part.ts'
import { isSteep, standingSurface } from './standing-surface.ts'

export interface PerchPlace {
  readonly partId: string
  readonly label: string
  /** Where its feet are, metres. */
  readonly at: Point
}

/** From there on a level part offers more than one place, metres. */
const LONG_M = 0.8
/** A bird stands that far in from an end, metres. */
const INSET_M = 0.1

/** Places where a bird can be put down, from left to right on each part. */
export function perchPlaces(parts: readonly Part[]): PerchPlace[] {
  return parts.filter(({ canPerch }) => canPerch).flatMap(placesOn)
}

function placesOn(part: Part): PerchPlace[] {
  const { from, to } = standingSurface(part)
  const lengthM = Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
  const at = (share: number): Point => [
    from[0] + share * (to[0] - from[0]),
    from[1] + share * (to[1] - from[1]),
    from[2] + share * (to[2] - from[2]),
  ]
  const place = (label: string, share: number): PerchPlace => ({
    partId: part.id,
    label,
    at: at(share),
  })
  if (isSteep(part)) return [place(`top of ${part.label}`, 0)]
  if (lengthM < LONG_M) return [place(part.label, 0.5)]
  const inset = INSET_M / lengthM
  const names = from[0] <= to[0] ? SIDES : [...SIDES].reverse()
  const shares = [inset, 0.25, 0.5, 0.75, 1 - inset]
  return shares.map((share, index) => place(`${part.label}, ${names[index]}`, share))
}

const SIDES = ['left end', 'left', 'middle', 'right', 'right end'] as const
