import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Position } from '#domain/feeder/geometry.ts'
import { orderRound, roundLengthM, type Stop } from '../../../web/crew/jobs/round-order.ts'
import { wayTo } from '../../../web/jobs/places/bearing.ts'

const stop = (pole: string, east: number, north = 0): Stop => ({
  pole,
  at: [-107 + east * 0.001, 43 + north * 0.001],
})
const order = (stops: Stop[], start: Position | null) =>
  orderRound(stops, start).map(({ pole }) => pole)

describe('the order of a round', () => {
  it('goes along a line of poles from the end where the crew is', () => {
    const stops = [stop('c', 3), stop('a', 1), stop('d', 4), stop('b', 2)]
    expect(order(stops, [-107, 43])).toEqual(['a', 'b', 'c', 'd'])
    expect(order(stops, [-106.9, 43])).toEqual(['d', 'c', 'b', 'a'])
  })

  it('begins at an end of the line where nobody knows where the crew is', () => {
    const stops = [stop('b', 2), stop('d', 4), stop('c', 3), stop('a', 1)]
    const found = orderRound(stops, null)
    expect(['abcd', 'dcba']).toContain(found.map(({ pole }) => pole).join(''))
    expect(found[0]?.fromLastM).toBeNull()
    expect(found[1]?.fromLastM).toBeGreaterThan(0)
  })

  it('is empty for no pole, and one pole for one', () => {
    expect(orderRound([], null)).toEqual([])
    expect(order([stop('a', 1)], null)).toEqual(['a'])
  })

  it('undoes the crossing that going to the nearest next makes', () => {
    // From the middle the nearest next jumps over and back; turned about, it sweeps once.
    const stops = [stop('w1', -1.1), stop('e1', 1), stop('w2', -3), stop('e2', 2.5)]
    const found = orderRound(stops, [-107, 43])
    expect(roundLengthM(found)).toBeCloseTo(shortest(stops, [-107, 43]), 3)
  })

  it('visits every pole once and is never longer than the order in which they are listed', () => {
    const any = fc.array(
      fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 })),
      {
        minLength: 1,
        maxLength: 9,
      },
    )
    fc.assert(
      fc.property(any, (places) => {
        const stops = places.map(([east, north], index) => stop(`p${index}`, east, north))
        const found = orderRound(stops, [-107, 43])
        expect(new Set(found.map(({ pole }) => pole)).size).toBe(stops.length)
        expect(found).toHaveLength(stops.length)
        expect(roundLengthM(found)).toBeLessThanOrEqual(lengthOf(stops, [-107, 43]) + 0.1)
      }),
      { numRuns: 60 },
    )
  })
})

const lengthOf = (stops: readonly Stop[], start: Position): number =>
  stops.reduce((sum, { at }, index) => sum + wayTo(stops[index - 1]?.at ?? start, at).distanceM, 0)

/** By trying every order. */
function shortest(stops: readonly Stop[], start: Position): number {
  if (stops.length === 0) return 0
  return Math.min(
    ...stops.map((first) => {
      const rest = stops.filter((other) => other !== first)
      return wayTo(start, first.at).distanceM + shortest(rest, first.at)
    }),
  )
}
