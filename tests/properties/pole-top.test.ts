import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bridgedFrom } from '../../server/domain/avian/pole-top/bridged-from.ts'
import type { ContactPair } from '../../server/domain/avian/pole-top/contact-pair.ts'
import {
  contactPairs,
  contactPairsOfSpecies,
  pairId,
} from '../../server/domain/avian/pole-top/contact-pairs.ts'
import { measure, nearestPlaces } from '../../server/domain/avian/pole-top/nearest-places.ts'
import type { Part, Point } from '../../server/domain/avian/pole-top/part.ts'
import { perchPlaces } from '../../server/domain/avian/pole-top/perch-places.ts'
import { segmentOf } from '../../server/domain/avian/pole-top/segment.ts'

const along = fc.double({ min: -1.5, max: 1.5, noNaN: true })
const place: fc.Arbitrary<Point> = fc.tuple(along, along, along)
type Slope = 'point' | 'level' | 'plumb' | 'slanted'

const anyPart: fc.Arbitrary<Part> = fc
  .record({
    from: place,
    far: place,
    slope: fc.constantFrom<Slope>('point', 'level', 'plumb', 'slanted'),
    potential: fc.constantFrom<Part['potential']>('A', 'B', 'C', 'grounded', 'none'),
    radiusM: fc.double({ min: 0, max: 0.25, noNaN: true }),
    surface: fc.constantFrom<Part['surface']>('bare', 'bare', 'bare', 'covered'),
    canPerch: fc.boolean(),
  })
  .map(({ from, far, slope, ...rest }) => ({
    ...rest,
    id: 'part',
    label: 'part',
    kind: 'jumper',
    from,
    to: endOf(from, far, slope),
  }))

function endOf(from: Point, far: Point, slope: Slope): Point {
  if (slope === 'point') return from
  if (slope === 'level') return [far[0], far[1], from[2]]
  return slope === 'plumb' ? [from[0], from[1], far[2]] : far
}

const someParts = fc
  .array(anyPart, { minLength: 2, maxLength: 9 })
  .map((parts) => parts.map((part, index) => ({ ...part, id: `part-${index}` })))

const anySize = fc.record({
  breadthM: fc.double({ min: 0.2, max: 2, noNaN: true }),
  heightM: fc.double({ min: 0.1, max: 1.2, noNaN: true }),
})

const idsOf = (pairs: readonly ContactPair[]) => new Set(pairs.map(pairId))
const isWithin = (some: ReadonlySet<string>, all: ReadonlySet<string>) =>
  [...some].every((id) => all.has(id))

/** The measure written down once more, from the two places themselves. */
function plainMeasure(a: Part, b: Part, p: Point, q: Point, breadthM: number, heightM: number) {
  const across = Math.max(0, Math.hypot(p[0] - q[0], p[1] - q[1]) - a.radiusM - b.radiusM)
  const up = Math.abs(p[2] - q[2])
  return Math.max(Math.hypot(across, up) / breadthM, up / heightM)
}

function pointOn({ from, to }: Part, share: number): Point {
  const at = (axis: 0 | 1 | 2) => from[axis] + share * (to[axis] - from[axis])
  return [at(0), at(1), at(2)]
}

/** Tries a grid of places, then a finer one around the best of them, and so on. */
function byTrying(a: Part, b: Part, breadthM: number, heightM: number): number {
  const steps = 12
  let [s, t, half, best] = [0.5, 0.5, 0.5, Number.POSITIVE_INFINITY]
  for (let round = 0; round < 14; round++) {
    const [midS, midT] = [s, t]
    for (let i = 0; i <= steps; i++) {
      for (let j = 0; j <= steps; j++) {
        const tryS = Math.min(1, Math.max(0, midS - half + (2 * half * i) / steps))
        const tryT = Math.min(1, Math.max(0, midT - half + (2 * half * j) / steps))
        const value = plainMeasure(a, b, pointOn(a, tryS), pointOn(b, tryT), breadthM, heightM)
        if (value < best) [s, t, best] = [tryS, tryT, value]
      }
    }
    half *= 0.45
  }
  return best
}

/** Everything right of the plane x = 0 is moved `byM` to the right, or all above z = 0 up. */
function movedApart(parts: readonly Part[], axis: 0 | 2, byM: number): Part[] {
  const moved = (point: Point): Point =>
    axis === 0 ? [point[0] + byM, point[1], point[2]] : [point[0], point[1], point[2] + byM]
  return parts.map((part) =>
    part.from[axis] >= 0 ? { ...part, from: moved(part.from), to: moved(part.to) } : part,
  )
}

/** Whole parts on one side or the other: the end goes to the side of the start. */
function onOneSide(parts: readonly Part[], axis: 0 | 2): Part[] {
  return parts.map((part) => {
    const to: [number, number, number] = [...part.to]
    to[axis] = (part.from[axis] >= 0 ? 1 : -1) * Math.abs(to[axis])
    return { ...part, to }
  })
}

describe('nearest places of two parts', () => {
  it('are as near as any that trying finds, and the measure is what it says', () => {
    fc.assert(
      fc.property(anyPart, anyPart, anySize, (a, b, { breadthM, heightM }) => {
        const [one, other] = [segmentOf(a), segmentOf(b)]
        const { s, t } = nearestPlaces(one, other, breadthM, heightM)
        const found = measure(one, other, s, t, breadthM, heightM)
        const plain = plainMeasure(a, b, pointOn(a, s), pointOn(b, t), breadthM, heightM)
        expect(found).toBeCloseTo(plain, 9)
        expect(found).toBeLessThanOrEqual(byTrying(a, b, breadthM, heightM) + 1e-6)
      }),
      { numRuns: 400 },
    )
  })
})

describe('pairs that a bird can bridge', () => {
  it('are those that trying finds, with the same share, where the parts can be stood on themselves', () => {
    fc.assert(
      fc.property(anyPart, anyPart, anySize, (a, b, size) => {
        const bare = { surface: 'bare', canPerch: true } as const
        const level = { ...a, ...bare, id: 'a', to: endOf(a.from, a.to, 'level') }
        const point = { ...b, ...bare, id: 'b', to: b.from }
        const [pair] = contactPairs([level, point], size)
        const share = byTrying(level, point, size.breadthM, size.heightM)
        const isPair =
          level.potential !== point.potential &&
          level.potential !== 'none' &&
          point.potential !== 'none'
        if (isPair && share < 1 - 1e-4) expect(pair?.share).toBeCloseTo(share, 5)
        if (!isPair || share > 1 + 1e-4) expect(pair).toBeUndefined()
      }),
      { numRuns: 300 },
    )
  })

  it('are never more when parts are moved apart, and none is left across a gap that no bird spans', () => {
    const side = fc.constantFrom<0 | 2>(0, 2)
    const gap = fc.double({ min: 0.001, max: 3, noNaN: true })
    fc.assert(
      fc.property(someParts, anySize, side, gap, (parts, size, axis, byM) => {
        const before = onOneSide(parts, axis)
        const after = contactPairs(movedApart(before, axis, byM), size)
        const shares = new Map(contactPairs(before, size).map((pair) => [pairId(pair), pair.share]))
        for (const pair of after) {
          expect(shares.has(pairId(pair))).toBe(true)
          expect(pair.share).toBeGreaterThanOrEqual((shares.get(pairId(pair)) ?? 0) - 1e-6)
        }
        const far = contactPairs(movedApart(before, axis, size.breadthM + size.heightM + 1), size)
        const isAcross = ({ partA, partB }: ContactPair) =>
          partA.from[axis] < 0 !== partB.from[axis] < 0
        expect(far.filter(isAcross)).toEqual([])
      }),
    )
  })

  it('become fewer when a pole top grows and its parts stay as thick', () => {
    const grow = fc.double({ min: 1, max: 3, noNaN: true })
    fc.assert(
      fc.property(someParts, anySize, grow, (parts, size, by) => {
        const scaled = (point: Point): Point => [point[0] * by, point[1] * by, point[2] * by]
        const grown = parts.map((part) => ({
          ...part,
          from: scaled(part.from),
          to: scaled(part.to),
        }))
        expect(isWithin(idsOf(contactPairs(grown, size)), idsOf(contactPairs(parts, size)))).toBe(
          true,
        )
      }),
    )
  })

  it('are exactly those without the covered part when a cover goes on', () => {
    fc.assert(
      fc.property(someParts, anySize, fc.nat(8), (parts, size, which) => {
        const at = which % parts.length
        const covered = parts.map((part, index) =>
          index === at ? { ...part, surface: 'covered' as const } : part,
        )
        const left = idsOf(contactPairs(parts, size))
        for (const id of left) if (id.split('~').includes(`part-${at}`)) left.delete(id)
        expect(idsOf(contactPairs(covered, size))).toEqual(left)
      }),
    )
  })

  it('are never fewer for a larger bird', () => {
    fc.assert(
      fc.property(someParts, anySize, anySize, (parts, size, more) => {
        const larger = {
          breadthM: size.breadthM + more.breadthM,
          heightM: size.heightM + more.heightM,
        }
        const [small, large] = contactPairsOfSpecies(parts, [size, larger])
        expect(isWithin(idsOf(small ?? []), idsOf(large ?? []))).toBe(true)
      }),
    )
  })

  it('are the same in whatever order the parts come, and alone or with other sizes', () => {
    fc.assert(
      fc.property(someParts, anySize, anySize, (parts, size, other) => {
        const reversed = contactPairsOfSpecies([...parts].reverse(), [other, size])[1] ?? []
        const told = (pairs: readonly ContactPair[]) =>
          pairs.map((pair) => ({ ...pair, perchId: '' }))
        expect(told(reversed)).toEqual(told(contactPairs(parts, size)))
      }),
    )
  })

  it('do not change when the pole is turned', () => {
    const angle = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true })
    fc.assert(
      fc.property(someParts, anySize, angle, (parts, size, by) => {
        const [cos, sin] = [Math.cos(by), Math.sin(by)]
        const turn = ([x, y, z]: Point): Point => [cos * x - sin * y, sin * x + cos * y, z]
        const turned = parts.map((part) => ({ ...part, from: turn(part.from), to: turn(part.to) }))
        const shares = (all: readonly Part[], least: number) =>
          new Map(
            contactPairs(all, size)
              .filter(({ share }) => share < least)
              .map((pair) => [pairId(pair), pair.share]),
          )
        const [here, there] = [shares(parts, 2), shares(turned, 2)]
        for (const [id, share] of shares(parts, 1 - 1e-5)) {
          if (here.has(id) && there.has(id)) expect(there.get(id)).toBeCloseTo(share, 5)
        }
        expect(Math.abs(here.size - there.size)).toBeLessThanOrEqual(nearlyTouched(parts, size))
      }),
    )
  })

  it('include all that a bird bridges from one of the perches', () => {
    fc.assert(
      fc.property(someParts, anySize, (parts, size) => {
        const all = idsOf(contactPairs(parts, size))
        for (const { at } of perchPlaces(parts)) {
          expect(isWithin(idsOf(bridgedFrom(parts, at, size)), all)).toBe(true)
        }
      }),
    )
  })
})

/** Pairs so near the limit that turning decides by the last digits. */
function nearlyTouched(
  parts: readonly Part[],
  size: { breadthM: number; heightM: number },
): number {
  const scaled = (by: number) =>
    contactPairs(parts, { breadthM: size.breadthM * by, heightM: size.heightM * by }).length
  return scaled(1 + 1e-6) - scaled(1 - 1e-5)
}
