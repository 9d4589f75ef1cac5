import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isMonthInSeason } from '#domain/feeder/season.ts'

const months = Array.from({ length: 12 }, (_, index) => index + 1)
const inSeason = (from: string, to: string) =>
  months.filter((month) => isMonthInSeason(month, from, to))

describe('a season', () => {
  it('inside one year holds the months between its ends', () => {
    expect(inSeason('02-15', '07-15')).toEqual([2, 3, 4, 5, 6, 7])
  })

  it('over New Year holds both sides of it', () => {
    expect(inSeason('10-15', '02-10')).toEqual([1, 2, 10, 11, 12])
  })

  it('inside one month holds only that month', () => {
    expect(inSeason('05-10', '05-20')).toEqual([5])
  })

  it('that ends just before it starts again holds the whole year', () => {
    expect(inSeason('05-20', '05-10')).toEqual(months)
  })

  it('refuses a month that no calendar has', () => {
    expect(() => isMonthInSeason(13, '01-01', '02-01')).toThrow('month from 1 to 12')
  })

  it('holds a month exactly when one of its days lies between the ends', () => {
    const day = fc.record({
      month: fc.integer({ min: 1, max: 12 }),
      day: fc.integer({ min: 1, max: 28 }),
    })
    const text = (d: { month: number; day: number }) =>
      `${String(d.month).padStart(2, '0')}-${String(d.day).padStart(2, '0')}`
    const order = (d: { month: number; day: number }) => d.month * 100 + d.day
    fc.assert(
      fc.property(day, day, fc.integer({ min: 1, max: 12 }), (from, to, month) => {
        const days = Array.from({ length: 31 }, (_, index) => month * 100 + index + 1)
        const holds = (at: number) =>
          order(from) <= order(to)
            ? at >= order(from) && at <= order(to)
            : at >= order(from) || at <= order(to)
        expect(isMonthInSeason(month, text(from), text(to))).toBe(days.some(holds))
      }),
    )
  })
})
