import { away, type Point } from './plane.ts'
import type { SeededRandom } from './seeded-random.ts'

/** Closed ring of `corners` points about a centre. */
export function circle(centre: Point, radiusM: number, corners = 48): Point[] {
  return Array.from({ length: corners + 1 }, (_, i) =>
    away(centre, -((i % corners) / corners) * 360, radiusM),
  )
}

/** Closed rounded ring of uneven radius, longer along `headingDeg` by `stretch`. */
export function blob(
  centre: Point,
  radiusM: number,
  random: SeededRandom,
  shape: { readonly stretch: number; readonly headingDeg: number } = { stretch: 1, headingDeg: 0 },
): Point[] {
  const corners = 26
  const [second, third] = [random.between(0, 360), random.between(0, 360)]
  const ring = Array.from({ length: corners }, (_, i): Point => {
    const angle = -(i / corners) * 360
    const wave =
      1 +
      0.16 * Math.sin(((2 * angle + second) * Math.PI) / 180) +
      0.11 * Math.sin(((3 * angle + third) * Math.PI) / 180)
    const along = Math.cos(((angle - shape.headingDeg) * Math.PI) / 180)
    const reach = radiusM * wave * (1 + (shape.stretch - 1) * along * along)
    return away(centre, angle, reach * random.between(0.95, 1.05))
  })
  const [first] = ring
  return first ? [...ring, first] : ring
}

/** Closed rectangle about a centre, its long side along the heading. */
export function rectangle(
  centre: Point,
  headingDeg: number,
  alongM: number,
  acrossM: number,
): Point[] {
  const corner = (a: number, b: number): Point =>
    away(away(centre, headingDeg, (a * alongM) / 2), headingDeg + 90, (b * acrossM) / 2)
  return [corner(-1, -1), corner(-1, 1), corner(1, 1), corner(1, -1), corner(-1, -1)]
}
