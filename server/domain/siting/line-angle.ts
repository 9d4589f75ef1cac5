import { bearing } from '@turf/turf'
import type { Path, Position } from '#domain/feeder/geometry.ts'
import type { Span } from '#domain/feeder/span.ts'

/**
 * How far the line turns at a pole, degrees: 0 runs straight through, 90 is a corner.
 * Null where a span has no direction.
 */
export function lineAngleDeg(incoming: Span, outgoing: Span, poleId: string): number | null {
  const inward = headingFrom(incoming, poleId)
  const outward = headingFrom(outgoing, poleId)
  if (inward === null || outward === null) return null
  const between = Math.abs(((outward - inward + 540) % 360) - 180)
  return 180 - between
}

/** Compass heading of a span as it leaves the pole. */
function headingFrom(span: Span, poleId: string): number | null {
  const path = span.from === poleId ? span.path : [...span.path].reverse()
  return headingOf(path)
}

function headingOf(path: Path): number | null {
  const start = path[0]
  const next = path.find((position) => start && !isSame(start, position))
  return start && next ? bearing(start, next) : null
}

function isSame(a: Position, b: Position): boolean {
  return a[0] === b[0] && a[1] === b[1]
}
