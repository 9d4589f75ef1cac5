import { describe, expect, it } from 'vitest'
import { beforeAfter, workedPoles } from '#domain/avian/account/before-after.ts'
import {
  assumedWatchedSince,
  type YearAccountInput,
  yearAccount,
} from '#domain/avian/account/year-account.ts'
import type { Incident, Protection } from '#domain/feeder/birds.ts'

let given = 0
const nextId = () => {
  given += 1
  return `id-${given}`
}
const find = (foundOn: string, more: Partial<Incident> = {}): Incident => ({
  id: nextId(),
  at: [-107, 43],
  foundOn,
  species: 'golden eagle',
  cause: 'confirmed electrocution',
  ...more,
})
const item = (pole: string, on: string, more: Partial<Protection> = {}): Protection => ({
  id: nextId(),
  pole,
  kind: 'cover',
  what: 'bushing cover',
  measure: 'bushing cover',
  state: 'on',
  on,
  ...more,
})
const input = (more: Partial<YearAccountInput> = {}): YearAccountInput => ({
  year: 2025,
  today: '2026-11-25',
  watchedSince: '2020-01-01',
  poles: Array.from({ length: 1000 }, (_, at) => `P-${at}`),
  items: [],
  incidents: [],
  states: [],
  inspectionsDue: [],
  detection: {},
  ...more,
})

describe('account of a year', () => {
  it('tells events and birds apart', () => {
    const account = yearAccount(input({ incidents: [find('2025-05-01', { count: 2 })] }))
    expect(account.electrocutions).toMatchObject({ events: 1, birds: 2 })
    expect(account.rate?.per1000).toBeCloseTo(365.25 / 365, 10)
  })

  it('shows none found with the rate that it still allows', () => {
    const { rate } = yearAccount(input())
    expect(rate).toMatchObject({ per1000: 0, limits: { low: 0 } })
    expect(rate?.limits.high).toBeCloseTo((3.689 * 365.25) / 365, 2)
    expect(rate?.upperOneSided).toBeCloseTo((2.996 * 365.25) / 365, 2)
  })

  it('counts the pole-years of the days so far while the year is under way', () => {
    const account = yearAccount(input({ year: 2026 }))
    expect(account.isUnderWay).toBe(true)
    expect(account.poleYears).toBeCloseTo((1000 * 329) / 365.25, 9)
  })

  it('has no rate for a year that has not begun', () => {
    expect(yearAccount(input({ year: 2027 }))).toMatchObject({ days: null, rate: null })
  })

  it('leaves collisions, birds that were shot and unknown causes out of the rate, and lists them', () => {
    const incidents = (['collision', 'shot', 'unknown', 'probable electrocution'] as const).map(
      (cause) => find('2025-06-01', { cause }),
    )
    const account = yearAccount(input({ incidents }))
    expect(account.rate?.events).toBe(1)
    expect(account.byCause.map(({ what }) => what).sort()).toEqual([
      'collision',
      'probable electrocution',
      'shot',
      'unknown',
    ])
  })

  it('corrects for carcasses that are gone, overlooked or on poles that nobody searched', () => {
    const detection = {
      persistence: { meanDays: 10.1, intervalDays: 30 },
      searchEfficiency: 0.75,
      shareSearched: 0.5,
    }
    const incidents = [find('2025-06-01'), find('2025-07-01')]
    const account = yearAccount(input({ incidents, detection }))
    expect(account.factors.detected).toBeCloseTo(0.319 * 0.75 * 0.5, 3)
    expect(account.correctedEvents).toBeCloseTo(2 / account.factors.detected, 9)
    expect(account.rate?.per1000).toBeCloseTo(
      (account.correctedEvents * 1000) / account.poleYears,
      9,
    )
  })

  it('counts poles once by measure, and says what of the spend nobody wrote down', () => {
    const items = [
      item('P-1', '2025-02-01', { costUsd: 300 }),
      item('P-1', '2025-02-01', { costUsd: 200 }),
      item('P-2', '2025-03-01'),
      item('P-3', '2024-03-01', { costUsd: 999 }),
      item('P-4', '2025-03-01', { state: 'planned' }),
    ]
    const account = yearAccount(input({ items }))
    expect(account.done).toEqual([{ what: 'bushing cover', items: 3, poles: 2 }])
    expect(account.spend).toEqual({ usd: 500, items: 3, withoutCost: 1 })
  })

  it('counts what failed, and looks that are overdue', () => {
    const items = [
      item('P-1', '2024-02-01', { condition: 'slipped' }),
      item('P-2', '2024-02-01', { state: 'failed' }),
      item('P-3', '2024-02-01', { condition: 'sound', inspectedOn: '2025-08-01' }),
    ]
    const inspectionsDue = [
      { itemId: 'a', dueOn: '2026-11-24' },
      { itemId: 'b', dueOn: '2026-11-25' },
    ]
    const account = yearAccount(input({ items, inspectionsDue }))
    expect(account.failedItems).toBe(2)
    expect(account.inspections).toEqual({ done: 1, overdue: 1 })
  })

  it('tells how follow-up was kept, and what is left from earlier years', () => {
    const incidents = [
      find('2025-05-01', { pole: 'P-1', visitedOn: '2025-05-02', fixedOn: '2025-09-01' }),
      find('2023-05-01', { cause: 'collision' }),
    ]
    const account = yearAccount(input({ incidents }))
    expect(account.followUp.map(({ kept, late, overdue }) => [kept, late, overdue])).toEqual([
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0, 0, 1],
    ])
    expect(account.overdueFromEarlier).toBe(1)
  })

  it('takes the year of the first find for the start of the record', () => {
    expect(assumedWatchedSince([find('2023-05-01'), find('2022-10-30')], '2026-11-25')).toBe(
      '2022-01-01',
    )
    expect(assumedWatchedSince([], '2026-11-25')).toBe('2026-01-01')
  })
})

describe('before and after on the same poles', () => {
  it('counts each pole from the start to its first item, and from its last item on', () => {
    const items = [item('P-1', '2024-01-01'), item('P-1', '2024-07-01'), item('P-2', '2025-01-01')]
    const incidents = [
      find('2023-05-01', { pole: 'P-1' }),
      find('2024-03-01', { pole: 'P-1' }),
      find('2024-09-01', { pole: 'P-1' }),
      find('2024-06-01', { pole: 'P-2' }),
      find('2024-06-01', { pole: 'P-9' }),
    ]
    const found = beforeAfter(items, incidents, '2023-01-01', '2025-12-31')
    expect(found.before.events).toBe(2)
    expect(found.before.poleYears).toBeCloseTo((365 + 731) / 365.25, 9)
    expect(found.after).toEqual({ events: 1, poleYears: expect.closeTo((549 + 365) / 365.25, 9) })
    expect(found.eventsBetween).toBe(1)
    expect(found.toShowHalving?.before).toBeGreaterThan(46)
  })

  it('goes by the day of death where that was estimated', () => {
    const items = [item('P-1', '2024-01-01')]
    const late = [find('2024-02-01', { pole: 'P-1', diedOn: '2023-12-20' })]
    expect(beforeAfter(items, late, '2023-01-01', '2025-12-31').before.events).toBe(1)
  })

  it('does not count a perch or a deterrent as work that closes anything', () => {
    const { poles } = workedPoles([
      item('P-1', '2024-01-01', { kind: 'perch', measure: 'raised perch' }),
      item('P-2', '2024-01-01', { kind: 'guard', measure: 'perch deterrent' }),
    ])
    expect(poles).toEqual([])
  })

  it('leaves out, aloud, poles of which only the day of a failure is known', () => {
    const items = [item('P-1', '2025-01-01', { state: 'failed' }), item('P-2', '2025-01-01')]
    expect(workedPoles(items)).toEqual({
      poles: [{ poleId: 'P-2', firstOn: '2025-01-01', lastOn: '2025-01-01' }],
      undatedPoles: 1,
    })
  })
})
