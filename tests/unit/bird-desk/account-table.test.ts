import { describe, expect, it } from 'vitest'
import { yearAccount } from '#domain/avian/account/year-account.ts'
import { detectionOf, NO_CHOICES } from '../../../web/coordinator/account/account-choices.ts'
import { accountCsv } from '../../../web/coordinator/account/account-csv.ts'
import { limitsInWords, valueInWords } from '../../../web/coordinator/account/account-row.ts'
import { accountSections } from '../../../web/coordinator/account/account-sections.ts'
import { accountViewOf } from '../../../web/coordinator/account/account-view.ts'
import { feederPicture } from '../../../web/coordinator/account/feeder-picture.ts'
import { birdFeeder, poleWith } from '../avian/bird-feeder.ts'

const account = yearAccount({
  year: 2025,
  today: '2026-11-25',
  watchedSince: '2020-01-01',
  poles: Array.from({ length: 500 }, (_, at) => `P-${at}`),
  items: [],
  incidents: [],
  states: ['open', 'open', 'covered'],
  inspectionsDue: [],
  detection: {},
})
const sections = accountSections({
  account,
  detection: {},
  watchedSince: '2020-01-01',
  isWatchedSinceAssumed: true,
})
const rows = sections.flatMap((section) => section.rows)

describe('the yearly account in words', () => {
  it('never shows zero without what it still allows', () => {
    const rate = rows.find(({ what }) => what.includes('per 1000 pole-years'))
    expect(rate?.note).toContain('None found is not none killed')
    expect(rate && valueInWords(rate)).toBe('0.00')
    // 3.689 events in 499.7 pole-years.
    expect(rate && limitsInWords(rate)).toBe('0.00 to 7.38')
  })

  it('says that too few events allow no comparison', () => {
    const ratio = rows.find(({ what }) => what.startsWith('Rate after'))
    expect(ratio).toMatchObject({ value: null, note: expect.stringContaining('Cannot be told') })
  })

  it('shows a working for each figure that is computed by more than counting', () => {
    expect(rows.filter(({ working }) => working).length).toBeGreaterThanOrEqual(3)
  })
})

describe('the account as a table', () => {
  it('has a head, plain numbers with their limits, and the cautions', () => {
    const lines = accountCsv(sections).split('\r\n')
    expect(lines[0]).toBe('section,what,value,unit,low_95,high_95,note')
    const rate = lines.find((line) => line.includes('per 1000 pole-years'))
    expect(rate).toMatch(/^Rate,Electrocutions per 1000 pole-years,0,events,0,7\.38\d*,/)
    expect(lines.some((line) => line.includes('Caution'))).toBe(true)
  })

  it('quotes commas and quotes, and lets no text run as a formula', () => {
    const table = accountCsv([
      {
        title: 'T',
        rows: [{ what: '=2+2', value: -1, unit: '', note: 'a "b", c' }],
        cautions: [],
      },
    ])
    expect(table.split('\r\n')[1]).toBe(`T,'=2+2,-1,,,,"a ""b"", c"`)
  })
})

describe('what searches miss', () => {
  it('corrects nothing where nothing is entered', () => {
    expect(detectionOf(NO_CHOICES)).toEqual({ detection: {}, faults: {} })
  })

  it('takes a half-life and an interval together, and percent as shares', () => {
    const { detection } = detectionOf({
      ...NO_CHOICES,
      halfLifeDays: '7',
      intervalDays: '30',
      efficiencyPercent: '75',
    })
    expect(detection.persistence?.meanDays).toBeCloseTo(10.1, 1)
    expect(detection.searchEfficiency).toBe(0.75)
  })

  it('says what to do about one without the other, and about what is no number', () => {
    expect(detectionOf({ ...NO_CHOICES, halfLifeDays: '7' }).faults).toEqual({
      intervalDays: 'Give both, or neither.',
    })
    expect(detectionOf({ ...NO_CHOICES, searchedPercent: '140' }).faults.searchedPercent).toContain(
      'at most 100',
    )
  })
})

describe('the address of the account', () => {
  it('keeps the year and the page to print', () => {
    expect(accountViewOf('account~2024~report', '2026-11-25')).toEqual({
      year: 2024,
      isReport: true,
    })
    expect(accountViewOf('account', '2026-11-25')).toEqual({ year: 2026, isReport: false })
  })
})

describe('the feeder as a small picture', () => {
  it('keeps its proportions, north up, and stays inside', () => {
    const feeder = birdFeeder([
      poleWith({}, 'P-1', [-107, 43]),
      poleWith({}, 'P-2', [-106.9, 43]),
      poleWith({}, 'P-3', [-107, 43.05]),
    ])
    const { poles, widthPx, heightPx } = feederPicture(feeder, 600, 400)
    const [a, b, c] = poles
    if (!a || !b || !c) throw new Error('Expected three poles.')
    expect(c.y).toBeLessThan(a.y)
    // 0.1° of longitude at 43° is 1.463 times 0.05° of latitude.
    expect((b.x - a.x) / (a.y - c.y)).toBeCloseTo(2 * Math.cos((43 * Math.PI) / 180), 2)
    expect(Math.max(a.x, b.x, c.x)).toBeLessThanOrEqual(widthPx)
    expect(Math.max(a.y, b.y, c.y)).toBeLessThanOrEqual(heightPx)
  })
})
