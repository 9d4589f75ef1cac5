import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bestChoice } from '#domain/avian/programme/best-choice.ts'
import { priceBound } from '#domain/avian/programme/price-bound.ts'
import type { Item, Limits, VisitGroup } from '#domain/avian/programme/visit-group.ts'

const worth = fc.oneof(
  fc.integer({ min: 1, max: 20 }).map((tenths) => tenths / 10),
  fc.double({ min: 0.001, max: 2, noNaN: true }),
)
const item = fc.record({ cents: fc.integer({ min: 0, max: 120_000 }), worth })
const groupsOfPoles: fc.Arbitrary<VisitGroup[]> = fc
  .array(
    fc.record({
      visitCents: fc.integer({ min: 0, max: 60_000 }),
      items: fc.array(item, { maxLength: 4 }),
    }),
    { maxLength: 5 },
  )
  .map((groups) =>
    groups.map(({ visitCents, items }, group) => ({
      visitCents,
      items: items.map((each, index) => ({ ...each, poleId: `P-${group}-${index}` })),
    })),
  )
  .filter((groups) => groups.flatMap(({ items }) => items).length <= 12)
const limits: fc.Arbitrary<Limits> = fc.record({
  cents: fc.integer({ min: 0, max: 900_000 }),
  poles: fc.oneof(fc.integer({ min: 0, max: 8 }), fc.constant(1000)),
})

/** Worth and money of every set of poles, tried one by one. */
function bruteForce(groups: readonly VisitGroup[], most: Limits): number {
  const all = groups.flatMap((group) => group.items.map((each) => ({ each, group })))
  let best = 0
  for (let set = 0; set < 1 << all.length; set += 1) {
    const chosen = all.filter((_, index) => set & (1 << index))
    const visits = new Set(chosen.map(({ group }) => group))
    const cents =
      chosen.reduce((sum, { each }) => sum + each.cents, 0) +
      [...visits].reduce((sum, { visitCents }) => sum + visitCents, 0)
    if (cents > most.cents || chosen.length > most.poles) continue
    best = Math.max(best, worthOf(chosen.map(({ each }) => each)))
  }
  return best
}

const worthOf = (items: readonly Item[]) => items.reduce((sum, each) => sum + each.worth, 0)

function costOf(groups: readonly VisitGroup[], chosen: readonly Item[]): number {
  const visits = groups.filter(({ items }) => items.some((each) => chosen.includes(each)))
  return (
    chosen.reduce((sum, { cents }) => sum + cents, 0) +
    visits.reduce((sum, { visitCents }) => sum + visitCents, 0)
  )
}

describe('The choice of poles', () => {
  it('is the best of all sets of poles that the money and the crews allow', () => {
    fc.assert(
      fc.property(groupsOfPoles, limits, (groups, most) => {
        const best = bruteForce(groups, most)
        const choice = bestChoice(groups, most)
        expect(choice.worth).toBeCloseTo(best, 9)
        expect(choice.bound).toBeCloseTo(best, 9)
      }),
      { numRuns: 300 },
    )
  })

  it('keeps to the money and the crew days, and adds up', () => {
    fc.assert(
      fc.property(groupsOfPoles, limits, (groups, most) => {
        const { items, cents, worth: sum } = bestChoice(groups, most)
        expect(new Set(items).size).toBe(items.length)
        expect(items.length).toBeLessThanOrEqual(most.poles)
        expect(cents).toBe(costOf(groups, items))
        expect(cents).toBeLessThanOrEqual(most.cents)
        expect(sum).toBeCloseTo(worthOf(items), 9)
      }),
    )
  })

  it('cut short says honestly how much better another could be', () => {
    fc.assert(
      fc.property(groupsOfPoles, limits, (groups, most) => {
        const best = bruteForce(groups, most)
        const hasty = bestChoice(groups, most, { mostKept: 1 })
        expect(hasty.worth).toBeLessThanOrEqual(best + 1e-9)
        expect(hasty.bound).toBeGreaterThanOrEqual(best - 1e-9)
      }),
      { numRuns: 300 },
    )
  })

  it('is never worth more than its price bound (weak duality)', () => {
    fc.assert(
      fc.property(groupsOfPoles, limits, fc.boolean(), (groups, most, isTight) => {
        const { bound } = priceBound(groups, most, isTight)
        expect(bruteForce(groups, most)).toBeLessThanOrEqual(bound + 1e-9)
      }),
    )
  })

  it('of poles that share a visit is worth no less than of the same poles apart', () => {
    fc.assert(
      fc.property(groupsOfPoles, limits, (groups, most) => {
        const apart = groups.flatMap(({ visitCents, items }) =>
          items.map((each) => ({ visitCents, items: [each] })),
        )
        expect(bestChoice(groups, most).worth).toBeGreaterThanOrEqual(
          bestChoice(apart, most).worth - 1e-9,
        )
      }),
    )
  })
})

/** Profits and weights of a worked knapsack: Kellerer, Pferschy and Pisinger, Knapsack Problems, 2004, from memory. */
describe('A worked example of the trade of knapsacks', () => {
  it('of seven items with profits 6, 5, 8, 9, 6, 7, 3 and weights 2, 3, 6, 7, 5, 9, 4 in 9 is worth 15', () => {
    const profits = [6, 5, 8, 9, 6, 7, 3]
    const weights = [2, 3, 6, 7, 5, 9, 4]
    const groups = profits.map((profit, index) => ({
      visitCents: 0,
      items: [{ poleId: `P-${index}`, cents: weights[index] ?? 0, worth: profit }],
    }))
    const { worth: sum, items } = bestChoice(groups, { cents: 9, poles: 7 })
    expect(sum).toBe(15)
    expect(items.map(({ poleId }) => poleId).toSorted()).toEqual(['P-0', 'P-3'])
  })
})
