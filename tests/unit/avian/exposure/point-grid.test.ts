import { distance } from '@turf/turf'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PointGrid } from '#domain/avian/exposure/point-grid.ts'
import type { Position } from '#domain/feeder/geometry.ts'

const place = (lon: fc.Arbitrary<number>, lat: fc.Arbitrary<number>): fc.Arbitrary<Position> =>
  fc.tuple(lon, lat)
const degrees = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const places = fc.oneof(
  fc.array(place(degrees(-107.1, -106.9), degrees(42.9, 43.1)), { maxLength: 40 }),
  fc.array(place(fc.oneof(degrees(179.9, 180), degrees(-180, -179.9)), degrees(64, 64.2)), {
    maxLength: 40,
  }),
  fc.array(place(degrees(-180, 180), degrees(88, 90)), { maxLength: 40 }),
)

describe('places found by their distance', () => {
  it('are those that Turf measures as near enough, also over the 180° meridian and at a pole', () => {
    fc.assert(
      fc.property(
        places,
        degrees(0, 30_000),
        fc.constantFrom(50, 800, 20_000),
        fc.nat(),
        (all, reachM, cellM, pick) => {
          const at = all[pick % Math.max(1, all.length)]
          if (!at) return
          const grid = new PointGrid(all, (item) => item, cellM)
          const expected = all
            .map((item) => distance(at, item, { units: 'meters' }))
            .filter((awayM) => awayM <= reachM)
            .toSorted((a, b) => a - b)
          expect(grid.within(at, reachM).map(({ distanceM }) => distanceM)).toEqual(expected)
        },
      ),
      { numRuns: 200 },
    )
  })
})
