import { distance } from '@turf/turf'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { driveOrder, type Stop } from '#domain/avian/programme/drive-order.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { eastOf } from './hand-made-input.ts'

const stopsOf = (most: number): fc.Arbitrary<Stop[]> =>
  fc
    .array(
      fc.tuple(
        fc.double({ min: -107.2, max: -107, noNaN: true }),
        fc.double({ min: 43, max: 43.2, noNaN: true }),
      ),
      { maxLength: most },
    )
    .map((places) => places.map((at: Position, index) => ({ id: `P-${index}`, at })))

function lengthM(stops: readonly Stop[]): number {
  return stops
    .slice(1)
    .reduce(
      (sum, stop, index) =>
        sum + distance(stops[index]?.at ?? stop.at, stop.at, { units: 'meters' }),
      0,
    )
}

function* ordersOf(stops: readonly Stop[]): Generator<Stop[]> {
  if (stops.length === 0) yield []
  for (const first of stops) {
    for (const rest of ordersOf(stops.filter((stop) => stop !== first))) yield [first, ...rest]
  }
}

describe('the order of driving', () => {
  it('is the shortest of all orders for a few poles', () => {
    fc.assert(
      fc.property(stopsOf(6), (stops) => {
        const shortestM = Math.min(...[...ordersOf(stops)].map(lengthM))
        expect(driveOrder(stops).driveM).toBeCloseTo(shortestM, 6)
      }),
      { numRuns: 60 },
    )
  })

  it('visits every pole once and adds up, however many there are', () => {
    fc.assert(
      fc.property(stopsOf(40), (stops) => {
        const { stops: driven, driveM } = driveOrder(stops)
        expect(driven.map(({ id }) => id).toSorted()).toEqual(stops.map(({ id }) => id).toSorted())
        expect(driveM).toBeCloseTo(lengthM(driven), 6)
        expect(driveM).toBeLessThanOrEqual(lengthM(stops) + 1e-6)
      }),
    )
  })

  it('along a straight line of many poles is the line itself', () => {
    const line = Array.from({ length: 25 }, (_, index) => ({
      id: `P-${index}`,
      at: eastOf(((index * 7) % 25) * 100),
    }))
    expect(driveOrder(line).driveM).toBeCloseTo(2400, -1)
  })
})
