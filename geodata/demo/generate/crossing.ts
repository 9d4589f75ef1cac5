import { nearestOn } from './curve.ts'
import { distance, type Line, type Point } from './plane.ts'

/** True where two straight pieces cross inside both. */
export function piecesCross(a: Point, b: Point, c: Point, d: Point): boolean {
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0
}

function side(a: Point, b: Point, p: Point): number {
  return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}

/** How often one line crosses another. */
export function crossings(a: Line, b: Line): number {
  let count = 0
  forPieces(a, (a1, a2) => {
    forPieces(b, (b1, b2) => {
      if (boxesMeet(a1, a2, b1, b2) && piecesCross(a1, a2, b1, b2)) count++
    })
  })
  return count
}

function boxesMeet(a1: Point, a2: Point, b1: Point, b2: Point): boolean {
  return (
    Math.max(a1[0], a2[0]) >= Math.min(b1[0], b2[0]) &&
    Math.min(a1[0], a2[0]) <= Math.max(b1[0], b2[0]) &&
    Math.max(a1[1], a2[1]) >= Math.min(b1[1], b2[1]) &&
    Math.min(a1[1], a2[1]) <= Math.max(b1[1], b2[1])
  )
}

function forPieces(line: Line, visit: (from: Point, to: Point) => void): void {
  for (let i = 1; i < line.length; i++) {
    const from = line[i - 1]
    const to = line[i]
    if (from && to) visit(from, to)
  }
}

/** True for a point inside a closed ring (even–odd rule). */
export function isInside(ring: Line, [x, y]: Point): boolean {
  let inside = false
  forPieces(ring, ([x1, y1], [x2, y2]) => {
    if (y1 > y !== y2 > y && x < ((x2 - x1) * (y - y1)) / (y2 - y1) + x1) inside = !inside
  })
  return inside
}

/** True where a line comes closer than `clearM` to a closed ring, or runs inside it. */
export function touches(ring: Line, line: Line, clearM: number): boolean {
  if (line.length === 0) return false
  if (line.some((point) => isInside(ring, point))) return true
  if (crossings(ring, line) > 0) return true
  return ring.some((corner) => nearestOn(line, corner).distanceM < clearM)
}

export function ringsMeet(a: Line, b: Line, clearM: number): boolean {
  const [first] = a
  const [second] = b
  if (!first || !second || distance(first, second) > 6_000) return false
  return (
    touches(a, b, clearM) ||
    b.some((corner) => isInside(a, corner)) ||
    a.some((corner) => isInside(b, corner))
  )
}
