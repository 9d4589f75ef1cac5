import { away, between, distance, headingDeg, type Line, type Point } from './plane.ts'
import type { SeededRandom } from './seeded-random.ts'

/** Smooth line through every control point (uniform Catmull–Rom), sampled about every `stepM` metres. */
export function smoothThrough(controls: Line, stepM = 25): Point[] {
  const smooth: Point[] = []
  for (let i = 0; i + 1 < controls.length; i++) {
    const from = controls[i]
    const to = controls[i + 1]
    if (!from || !to) continue
    const before = controls[i - 1] ?? from
    const after = controls[i + 2] ?? to
    const pieces = Math.max(1, Math.round(distance(from, to) / stepM))
    for (let piece = 0; piece < pieces; piece++) {
      smooth.push(catmullRom(before, from, to, after, piece / pieces))
    }
  }
  const last = controls.at(-1)
  return last ? [...smooth, last] : smooth
}

function catmullRom(p0: Point, p1: Point, p2: Point, p3: Point, t: number): Point {
  const blend = (a: number, b: number, c: number, d: number): number =>
    0.5 *
    (2 * b +
      (c - a) * t +
      (2 * a - 5 * b + 4 * c - d) * t * t +
      (3 * b - a - 3 * c + d) * t * t * t)
  return [blend(p0[0], p1[0], p2[0], p3[0]), blend(p0[1], p1[1], p2[1], p3[1])]
}

export function lineLength(line: Line): number {
  let total = 0
  for (let i = 1; i < line.length; i++) total += distance(at(line, i - 1), at(line, i))
  return total
}

/** Point at `alongM` metres from the start; the ends hold beyond them. */
export function pointAlong(line: Line, alongM: number): Point {
  let left = alongM
  for (let i = 1; i < line.length; i++) {
    const from = at(line, i - 1)
    const to = at(line, i)
    const piece = distance(from, to)
    if (left <= piece && piece > 0) return between(from, to, Math.max(0, left) / piece)
    left -= piece
  }
  return at(line, line.length - 1)
}

export interface Nearest {
  readonly point: Point
  readonly distanceM: number
  readonly alongM: number
  /** Heading of the line there. */
  readonly headingDeg: number
}

export function nearestOn(line: Line, target: Point): Nearest {
  let best: Nearest = {
    point: at(line, 0),
    distanceM: Number.POSITIVE_INFINITY,
    alongM: 0,
    headingDeg: 0,
  }
  let passedM = 0
  for (let i = 1; i < line.length; i++) {
    const from = at(line, i - 1)
    const to = at(line, i)
    const share = shareAlong(from, to, target)
    const point = between(from, to, share)
    const distanceM = distance(point, target)
    const piece = distance(from, to)
    if (distanceM < best.distanceM) {
      best = { point, distanceM, alongM: passedM + piece * share, headingDeg: headingDeg(from, to) }
    }
    passedM += piece
  }
  return best
}

function shareAlong(from: Point, to: Point, target: Point): number {
  const dx = to[0] - from[0]
  const dy = to[1] - from[1]
  const squared = dx * dx + dy * dy
  if (squared === 0) return 0
  return Math.min(
    1,
    Math.max(0, ((target[0] - from[0]) * dx + (target[1] - from[1]) * dy) / squared),
  )
}

/** The part of a line between two distances along it; runs backwards where `toM` is the smaller. */
export function partOf(line: Line, fromM: number, toM: number): Point[] {
  if (toM < fromM) return partOf(line, toM, fromM).reverse()
  const part: Point[] = [pointAlong(line, fromM)]
  let passedM = 0
  for (let i = 1; i < line.length; i++) {
    passedM += distance(at(line, i - 1), at(line, i))
    if (passedM > fromM + 1 && passedM < toM - 1) part.push(at(line, i))
  }
  part.push(pointAlong(line, toM))
  return part
}

/** Line beside another, `leftM` metres to the left of its direction (negative: right), corners mitred. */
export function beside(line: Line, leftM: number): Point[] {
  return line.map((point, i) => {
    const before = line[i - 1] ?? point
    const after = line[i + 1] ?? point
    const inward = i === 0 ? headingDeg(point, after) : headingDeg(before, point)
    const outward = i === line.length - 1 ? inward : headingDeg(point, after)
    const halfTurn = (((outward - inward + 540) % 360) - 180) / 2
    const reach = leftM / Math.max(0.5, Math.cos((halfTurn * Math.PI) / 180))
    return away(point, inward + halfTurn - 90, reach)
  })
}

/** Bends a line sideways in irregular loops, as a creek on a flat floor does; the ends stay. */
export function meandered(
  line: Line,
  random: SeededRandom,
  sidewaysM: number,
  lengthM: number,
): Point[] {
  const total = lineLength(line)
  const controls: Point[] = [at(line, 0)]
  let side = 1
  for (
    let alongM = lengthM;
    alongM < total - lengthM;
    alongM += lengthM * random.between(0.45, 1.5)
  ) {
    const { point, headingDeg: heading } = nearestOn(line, pointAlong(line, alongM))
    controls.push(away(point, heading + 90, side * sidewaysM * random.between(0.1, 1.4)))
    side = random.chance(0.85) ? -side : side
  }
  controls.push(at(line, line.length - 1))
  return smoothThrough(controls, 40)
}

/** Small bends of a road that follows the ground; some stretches stay as they are. */
export function roughened(line: Line, random: SeededRandom, sidewaysM: number): Point[] {
  const total = lineLength(line)
  const controls: Point[] = [at(line, 0)]
  for (let alongM = 700; alongM < total - 500; alongM += random.between(380, 900)) {
    const { point, headingDeg: heading } = nearestOn(line, pointAlong(line, alongM))
    const shiftM = random.chance(0.6) ? random.between(-sidewaysM, sidewaysM) : 0
    controls.push(away(point, heading + 90, shiftM))
  }
  controls.push(at(line, line.length - 1))
  return smoothThrough(controls)
}

/** Leaves out points that lie within `toleranceM` of the line without them (Douglas and Peucker, 1973). */
export function simplified(line: Line, toleranceM: number): Point[] {
  if (line.length < 3) return [...line]
  const first = at(line, 0)
  const last = at(line, line.length - 1)
  let worstM = 0
  let worst = 0
  for (let i = 1; i + 1 < line.length; i++) {
    const offM = nearestOn([first, last], at(line, i)).distanceM
    if (offM > worstM) {
      worstM = offM
      worst = i
    }
  }
  if (worstM <= toleranceM) return [first, last]
  const head = simplified(line.slice(0, worst + 1), toleranceM)
  return [...head.slice(0, -1), ...simplified(line.slice(worst), toleranceM)]
}

function at(line: Line, index: number): Point {
  const point = line[index]
  if (!point) throw new Error(`Expected a point ${index} on a line of ${line.length}.`)
  return point
}
