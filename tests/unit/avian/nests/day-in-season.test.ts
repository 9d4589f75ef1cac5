import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dateOfDay, dayCount, dayInWords, sharedRanges } from '#domain/avian/nests/calendar-days.ts'
import { isDayInSeason } from '#domain/avian/nests/day-in-season.ts'
import { isMonthInSeason } from '#domain/feeder/season.ts'

const monthDay = fc
  .record({ month: fc.integer({ min: 1, max: 12 }), day: fc.integer({ min: 1, max: 28 }) })
  .map(({ month, day }) => `${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`)

describe('a day in a season', () => {
  it('inside one year is held from the first to the last day, both counted', () => {
    const isHeld = (date: string) => isDayInSeason(date, '02-15', '07-15')
    expect(['2027-02-15', '2027-05-01', '2027-07-15'].map(isHeld)).toEqual([true, true, true])
    expect(['2027-02-14', '2027-07-16', '2027-12-31'].map(isHeld)).toEqual([false, false, false])
  })

  it('over New Year is held on both sides (golden eagle 15 December to 15 July, DRMS 948905)', () => {
    const isHeld = (date: string) => isDayInSeason(date, '12-15', '07-15')
    expect(['2026-12-15', '2026-12-31', '2027-01-01', '2027-07-15'].map(isHeld)).toEqual([
      true,
      true,
      true,
      true,
    ])
    expect(['2026-12-14', '2027-07-16'].map(isHeld)).toEqual([false, false])
  })

  it('of the whole year is every day, written either way', () => {
    for (const date of ['2027-01-01', '2028-02-29', '2027-06-30', '2027-12-31']) {
      expect(isDayInSeason(date, '01-01', '12-31')).toBe(true)
      expect(isDayInSeason(date, '05-20', '05-19')).toBe(true)
    }
  })

  it('on 29 February is held where the season goes to the end of February or over it', () => {
    expect(isDayInSeason('2028-02-29', '11-15', '02-28')).toBe(true)
    expect(isDayInSeason('2028-02-29', '02-01', '07-15')).toBe(true)
    expect(isDayInSeason('2028-02-29', '11-15', '02-27')).toBe(false)
    expect(isDayInSeason('2028-02-29', '03-01', '08-15')).toBe(false)
    expect(isDayInSeason('2027-03-01', '12-01', '02-29')).toBe(false)
  })

  it('lies in a month that the season holds', () => {
    fc.assert(
      fc.property(monthDay, monthDay, monthDay, (from, to, day) => {
        if (!isDayInSeason(`2027-${day}`, from, to)) return
        expect(isMonthInSeason(Number(day.slice(0, 2)), from, to)).toBe(true)
      }),
    )
  })
})

describe('calendar days', () => {
  it('count over the end of a year and a leap day', () => {
    expect(dayCount('2028-03-01') - dayCount('2028-02-28')).toBe(2)
    expect(dateOfDay(dayCount('2027-12-31') + 1)).toBe('2028-01-01')
    expect(() => dayCount('spring')).toThrow('Expected a date')
  })

  it('of two lists of runs are shared where both have them', () => {
    const winter = [
      { from: '2027-01-01', to: '2027-03-31' },
      { from: '2027-09-01', to: '2027-12-31' },
    ]
    expect(sharedRanges(winter, [{ from: '2027-03-15', to: '2027-10-01' }])).toEqual([
      { from: '2027-03-15', to: '2027-03-31' },
      { from: '2027-09-01', to: '2027-10-01' },
    ])
    expect(sharedRanges(winter, [])).toEqual([])
  })

  it('are written as people write them', () => {
    expect(dayInWords('02-05')).toBe('5 Feb')
    expect(dayInWords('2027-07-16')).toBe('16 Jul 2027')
  })
})
