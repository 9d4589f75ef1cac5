import { lowest } from './lowest.ts'
import { acrossM, type Segment, upM } from './segment.ts'

/** Shares of the lengths of two parts, 0 to 1 from their starts. */
export interface Places {
  readonly s: number
  readonly t: number
}

/**
 * Where max(distance / breadth, height difference / height) of two parts is least; with an infinite
 * height, where they are nearest.
 *
 * Only two slanted parts need a search within a search. Of a level and a plumb part, and of two of a
 * kind, the nearest places sideways and up and down are reached together, in closed form; and along a
 * slanted part the best place on a level or plumb one is in closed form for each place, so that one
 * search is enough. The measure is convex in the two shares, and so is its least over one of them.
 */
export function nearestPlaces(a: Segment, b: Segment, breadthM: number, heightM: number): Places {
  if (a.slope !== 'slanted' && b.slope !== 'slanted') return ofStraight(a, b)
  if (a.slope !== 'slanted') {
    const { s, t } = nearestPlaces(b, a, breadthM, heightM)
    return { s: t, t: s }
  }
  const bestOnB =
    b.slope === 'slanted'
      ? (s: number) => lowest((t) => measure(a, b, s, t, breadthM, heightM))
      : (s: number) => onStraight(b, a, s)
  const s = lowest((share) => measure(a, b, share, bestOnB(share), breadthM, heightM))
  return { s, t: bestOnB(s) }
}

/** max(distance / breadth, height difference / height) at two places. */
export function measure(
  a: Segment,
  b: Segment,
  s: number,
  t: number,
  breadthM: number,
  heightM: number,
): number {
  const across = acrossM(a, b, s, t)
  const up = upM(a, b, s, t)
  return Math.max(Math.sqrt(across * across + up * up) / breadthM, up / heightM)
}

function ofStraight(a: Segment, b: Segment): Places {
  if (a.slope === 'level' && b.slope === 'level') return ofLevel(a, b)
  if (a.slope === 'plumb') {
    const s = b.slope === 'plumb' ? nearestHeight(a, middleOfShared(a, b)) : nearestHeight(a, b.zM)
    return { s, t: onStraight(b, a, s) }
  }
  const t = nearestHeight(b, a.zM)
  return { s: onStraight(a, b, t), t }
}

/** Share of a level or plumb part that is nearest to the share `s` of the other one. */
function onStraight(straight: Segment, other: Segment, s: number): number {
  return straight.slope === 'plumb'
    ? nearestHeight(straight, other.zM + s * other.dzM)
    : nearestAcross(straight, other.xM + s * other.dxM, other.yM + s * other.dyM)
}

function nearestHeight({ zM, dzM }: Segment, heightM: number): number {
  return clamp((heightM - zM) / dzM)
}

function nearestAcross({ xM, yM, dxM, dyM }: Segment, x: number, y: number): number {
  const squared = dxM * dxM + dyM * dyM
  return squared === 0 ? 0 : clamp(((x - xM) * dxM + (y - yM) * dyM) / squared)
}

/** Height in the middle of what two plumb parts share, or of the gap between them. */
function middleOfShared(a: Segment, b: Segment): number {
  return (Math.max(a.lowM, b.lowM) + Math.min(a.highM, b.highM)) / 2
}

/**
 * Nearest places of two lines on a plane seen from above: where they cross, or else from an end of
 * one of them (after Ericson, Real-Time Collision Detection, 2005, 5.1.9; from memory).
 */
function ofLevel(a: Segment, b: Segment): Places {
  const x = a.xM - b.xM
  const y = a.yM - b.yM
  const aa = a.dxM * a.dxM + a.dyM * a.dyM
  const bb = b.dxM * b.dxM + b.dyM * b.dyM
  if (aa === 0) return { s: 0, t: nearestAcross(b, a.xM, a.yM) }
  if (bb === 0) return { s: nearestAcross(a, b.xM, b.yM), t: 0 }
  const ab = a.dxM * b.dxM + a.dyM * b.dyM
  const ra = a.dxM * x + a.dyM * y
  const rb = b.dxM * x + b.dyM * y
  const determinant = aa * bb - ab * ab
  const s = determinant > PARALLEL * aa * bb ? clamp((ab * rb - ra * bb) / determinant) : 0
  const t = clamp((ab * s + rb) / bb)
  return { s: clamp((ab * t - ra) / aa), t }
}

/** Sine squared of the angle below which two lines count as parallel. */
const PARALLEL = 1e-12

function clamp(share: number): number {
  return Math.max(0, Math.min(1, share))
}
