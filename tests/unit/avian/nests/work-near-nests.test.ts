import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PointGrid } from '#domain/avian/exposure/point-grid.ts'
import { type DayRange, dateOfDay, dayCount } from '#domain/avian/nests/calendar-days.ts'
import { isDayInSeason } from '#domain/avian/nests/day-in-season.ts'
import { heldAllTheTime, nestNotes } from '#domain/avian/nests/nest-notes.ts'
import { nestsWithBuffers, workNearNests } from '#domain/avian/nests/work-near-nests.ts'
import type { Nest } from '#domain/feeder/birds.ts'
import { nestAt } from '../bird-feeder.ts'

const YEAR: DayRange = { from: '2027-01-01', to: '2027-12-31' }
const AT: [number, number] = [-107, 43]

/** About 330 m north of the pole. */
const NEAR: [number, number] = [-107, 43.003]

function work(nests: Nest[], days = YEAR, poleId?: string) {
  const grid = new PointGrid(nestsWithBuffers(nests), ({ nest }) => nest.at, 1000)
  return workNearNests(AT, grid, days, poleId)
}

const monthDay = fc
  .record({ month: fc.integer({ min: 1, max: 12 }), day: fc.integer({ min: 1, max: 31 }) })
  .map(({ month, day }) => `${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`)
const date = fc.integer({ min: dayCount('2026-11-01'), max: dayCount('2029-01-31') })

describe('work near a nest', () => {
  it('is free on exactly those days on which no season holds it, tried day by day', () => {
    const seasons = fc.array(fc.record({ seasonFrom: monthDay, seasonTo: monthDay }), {
      maxLength: 3,
    })
    fc.assert(
      fc.property(seasons, date, fc.nat(500), (all, first, length) => {
        const nests = all.map((season, index) => nestAt(NEAR, { id: `N-${index}`, ...season }))
        const days = { from: dateOfDay(first), to: dateOfDay(first + length) }
        const { free } = work(nests, days)
        const wrong = Array.from({ length: length + 1 }, (_, index) => dateOfDay(first + index))
          .map((today) => ({
            today,
            runs: free.filter(({ from, to }) => from <= today && today <= to).length,
            isHeld: all.some(({ seasonFrom, seasonTo }) =>
              isDayInSeason(today, seasonFrom, seasonTo),
            ),
          }))
          .filter(({ runs, isHeld }) => runs !== (isHeld ? 0 : 1))
        expect(wrong).toEqual([])
      }),
    )
  })

  it('of a golden eagle in use is free from 16 July to 14 December', () => {
    const found = work([nestAt(NEAR)])
    expect(found.free).toEqual([{ from: '2027-07-16', to: '2027-12-14' }])
    const notes = nestNotes(found, YEAR).join(' ')
    expect(notes).toContain('season 15 Dec to 15 Jul')
    expect(notes).toContain('Only 16 Jul 2027 to 14 Dec 2027.')
    expect(notes).toContain('protected all year, in use or not (from memory)')
    expect(notes).toContain('the agency decides')
  })

  it('says in few words where only the begin or the end of the year is taken', () => {
    const days = { from: '2027-03-01', to: '2027-10-31' }
    expect(nestNotes(work([nestAt(NEAR)], days), days)).toContain('Not before 16 Jul 2027.')
    const late = { from: '2027-08-01', to: '2028-03-01' }
    expect(nestNotes(work([nestAt(NEAR)], late), late)).toContain('Not after 14 Dec 2027.')
  })

  it('is held all the time where the season holds every day asked for', () => {
    const spring = { from: '2027-03-01', to: '2027-05-31' }
    const found = work([nestAt(NEAR)], spring)
    expect(found.free).toEqual([])
    expect(heldAllTheTime(found, spring)).toMatch(
      /^Held by nest buffers on every day from 1 Mar 2027 to 31 May 2027: Golden eagle nest 1094 ft \(334 m\) to the north \(record N-1\), in use, buffer/,
    )
  })

  it('has two runs of free days around a season in the middle of the year', () => {
    const hawk = nestAt(NEAR, { species: 'Red-tailed hawk', seasonFrom: '02-15' })
    expect(work([hawk]).free).toEqual([
      { from: '2027-01-01', to: '2027-02-14' },
      { from: '2027-07-16', to: '2027-12-31' },
    ])
  })

  it('of a hawk that is not in use is free with a word of care, of an eagle it is not', () => {
    const hawk = nestAt(NEAR, { species: "Swainson's hawk", status: 'not in use' })
    expect(work([hawk]).free).toEqual([YEAR])
    expect(nestNotes(work([hawk]), YEAR).join(' ')).toContain('have it checked before the work')
    expect(work([nestAt(NEAR, { status: 'not in use' })]).free).not.toEqual([YEAR])
  })

  it('outside its buffer is free and says nothing, on its own pole it speaks whatever the buffer', () => {
    const small = nestAt([-107, 43.001], { bufferM: 0, pole: 'P-1' })
    expect(work([small])).toEqual({ inTheWay: [], free: [YEAR] })
    expect(nestNotes(work([small]), YEAR)).toEqual([])
    expect(work([small], YEAR, 'P-1').inTheWay).toHaveLength(1)
  })

  it('of several species is free only where all leave it free', () => {
    const hawk = nestAt(NEAR, {
      id: 'N-2',
      species: 'Osprey',
      seasonFrom: '04-01',
      seasonTo: '08-31',
    })
    expect(work([nestAt(NEAR), hawk]).free).toEqual([{ from: '2027-09-01', to: '2027-12-14' }])
  })
})
