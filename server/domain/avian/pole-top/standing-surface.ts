import type { Part } from './part.ts'

/**
 * Where on a part a bird stands: on top of one that is steeper than 45 degrees, anywhere along one
 * that is not.
 */
export function standingSurface(part: Part): Pick<Part, 'from' | 'to' | 'radiusM'> {
  const { from, to, radiusM } = part
  if (!isSteep(part)) return { from, to, radiusM }
  const top = from[2] > to[2] ? from : to
  return { from: top, to: top, radiusM }
}

export function isSteep({ from, to }: Pick<Part, 'from' | 'to'>): boolean {
  return Math.abs(to[2] - from[2]) > Math.hypot(to[0] - from[0], to[1] - from[1])
}
