import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part, Point } from '#domain/avian/pole-top/part.ts'

/** A part for tests of the drawing: a point, or a piece from one point to another. */
export function drawnPart(id: string, from: Point, more: Partial<Part> = {}): Part {
  return {
    id,
    label: id,
    kind: 'bushing',
    potential: 'A',
    from,
    to: from,
    radiusM: 0,
    surface: 'bare',
    canPerch: false,
    ...more,
  }
}

export const ARM = drawnPart('arm', [-1.2, 0.1, -0.1], {
  kind: 'arm',
  potential: 'none',
  to: [1.2, 0.1, -0.1],
  radiusM: 0.05,
  canPerch: true,
})

export const POLE = drawnPart('pole', [0, 0, 0], {
  kind: 'pole',
  potential: 'none',
  to: [0, 0, -5],
  radiusM: 0.11,
  canPerch: true,
})

/** A pair between two points, with what the drawing needs of it. */
export function drawnPair(partA: Part, partB: Part): ContactPair {
  const [a, b] = [partA.from, partB.from]
  const horizontalM = Math.hypot(a[0] - b[0], a[1] - b[1])
  const verticalM = Math.abs(a[2] - b[2])
  const distanceM = Math.hypot(horizontalM, verticalM)
  return {
    partA,
    partB,
    horizontalM,
    verticalM,
    distanceM,
    at: [a, b],
    share: 0.5,
    perchId: 'arm',
  }
}
