import type { Part } from './part.ts'

/** How a part runs: on one height (a point too), straight up and down, or neither. */
export type Slope = 'level' | 'plumb' | 'slanted'

/** A part as the kernels read it: start, way to the end, half width; metres. */
export interface Segment {
  readonly xM: number
  readonly yM: number
  readonly zM: number
  readonly dxM: number
  readonly dyM: number
  readonly dzM: number
  readonly radiusM: number
  readonly slope: Slope
  readonly lowM: number
  readonly highM: number
}

export function segmentOf({ from, to, radiusM }: Pick<Part, 'from' | 'to' | 'radiusM'>): Segment {
  const [xM, yM, zM] = from
  const dxM = to[0] - xM
  const dyM = to[1] - yM
  const dzM = to[2] - zM
  return {
    xM,
    yM,
    zM,
    dxM,
    dyM,
    dzM,
    radiusM,
    slope: dzM === 0 ? 'level' : dxM === 0 && dyM === 0 ? 'plumb' : 'slanted',
    lowM: Math.min(zM, to[2]),
    highM: Math.max(zM, to[2]),
  }
}

/** Between surfaces, sideways, at the share `s` of one and `t` of the other; metres. */
export function acrossM(a: Segment, b: Segment, s: number, t: number): number {
  const x = a.xM + s * a.dxM - b.xM - t * b.dxM
  const y = a.yM + s * a.dyM - b.yM - t * b.dyM
  return Math.max(0, Math.sqrt(x * x + y * y) - a.radiusM - b.radiusM)
}

/** Difference of heights at the share `s` of one and `t` of the other; metres. */
export function upM(a: Segment, b: Segment, s: number, t: number): number {
  return Math.abs(a.zM + s * a.dzM - b.zM - t * b.dzM)
}

/** Least difference of heights of two parts, 0 where they share one; metres. */
export function leastUpM(a: Segment, b: Segment): number {
  return Math.max(0, a.lowM - b.highM, b.lowM - a.highM)
}

/** The straight line between the surfaces is no shorter than that; metres. Cheap, and never too long. */
export function distanceBoundM(a: Segment, b: Segment): number {
  const x = apartM(a.xM, a.dxM, b.xM, b.dxM)
  const y = apartM(a.yM, a.dyM, b.yM, b.dyM)
  const across = Math.max(0, Math.sqrt(x * x + y * y) - a.radiusM - b.radiusM)
  const up = leastUpM(a, b)
  return Math.sqrt(across * across + up * up)
}

/** Gap of the two shadows on one axis. */
function apartM(a: number, da: number, b: number, db: number): number {
  const lowA = da < 0 ? a + da : a
  const lowB = db < 0 ? b + db : b
  return Math.max(0, lowA - lowB - Math.abs(db), lowB - lowA - Math.abs(da))
}
