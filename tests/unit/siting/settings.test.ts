import { describe, expect, test } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { bankOfProposal } from '#domain/jobs/bank-of-proposal.ts'
import { settingsSheet } from '#domain/jobs/settings-sheet.ts'
import { proposedRegulator } from '#domain/siting/proposed-regulator.ts'
import {
  compensatedCandidates,
  dropV,
  MOST_COMPENSATION_V,
} from '#domain/siting/settings/candidate-settings.ts'
import { isBetter, type SettingsScore } from '#domain/siting/settings/settings-worth.ts'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { ProposedBank, type SiteResult } from '#domain/siting/site-result.ts'
import { complex } from '#domain/units/complex.ts'
import { LINE, loadsOf, sited } from './long-feeder.ts'
import { type SampleParts, sampleFeeder } from './sample-feeder.ts'

const CASES = [
  { id: 'peak', name: 'Peak', loadFactor: 1, hoursPerYear: 1500 },
  { id: 'light', name: 'Light', loadFactor: 0.1, hoursPerYear: 7260 },
]

/** 10 km of line; only the pole in the middle may carry a bank. */
function feederWith(change: Partial<SampleParts> = {}): Feeder {
  const poles = LINE.poles.map((pole) => ({ ...pole, poleClass: pole.id === 'p6' ? '2' : '9' }))
  return sampleFeeder({
    ...LINE,
    poles,
    ohmPerKm: [0.4, 0.5],
    cases: CASES,
    loads: loadsOf(80),
    ...change,
  })
}

function bankOf(result: SiteResult): ProposedBank {
  const bank = result.proposals[0]?.banks[0]
  if (!bank) throw new Error(`Expected a proposal; ${result.notes.join(' ')}`)
  return bank
}

const SCORE: SettingsScore = {
  outside: 5,
  outsideAtEdges: 9,
  marginV: 1,
  meanMarginV: 2,
  meanLossKw: 10,
}

describe('What other settings must win to be worth it', () => {
  test.each([
    ['a customer fewer outside', { outside: 4, marginV: -3 }, true],
    ['a customer more outside, whatever else', { outside: 6, marginV: 4 }, false],
    ['a customer fewer at the edges', { outsideAtEdges: 8 }, true],
    ['half a volt of margin', { marginV: 1.5 }, false],
    ['a step of margin', { marginV: 1.75 }, true],
    ['a step of margin over the hours', { meanMarginV: 2.75 }, true],
    ['a step over the hours, but a lower least margin', { marginV: 0.8, meanMarginV: 4 }, false],
    ['one percent of the loss', { meanLossKw: 9.9 }, false],
    ['three percent of the loss', { meanLossKw: 9.7 }, true],
    ['nothing', {}, false],
  ])('%s: %o is %s', (_what, change, expected) => {
    expect(isBetter({ ...SCORE, ...change }, SCORE, 'service', false)).toBe(expected)
  })

  test('with the goal of least loss the loss comes before the margin', () => {
    const other = { ...SCORE, marginV: 3, meanLossKw: 10.5 }
    expect(isBetter(other, SCORE, 'service', false)).toBe(true)
    expect(isBetter(other, SCORE, 'loss', false)).toBe(false)
  })
})

describe('Compensation to a load centre', () => {
  const ground = {
    limits: { lowVolts120: 118, highVolts120: 126 },
    bandwidthV: 2,
    ctPrimaryA: 100,
    ptRatio: 60,
  }
  const centre = (ohms: number, amps = 50) => ({
    node: 7,
    kind: 'end of the zone' as const,
    readings: new Map([
      [
        'A' as const,
        { bankV: complex(7200), centreV: complex(7200 - ohms * amps), lineA: complex(amps) },
      ],
    ]),
  })

  test('the centre leaves the first customers at the high limit at most, band at its top', () => {
    for (const { compensation, settings } of compensatedCandidates(ground, centre(3))) {
      const reading = compensation?.readings.get('A')
      if (!reading) throw new Error('Expected the reading of phase A.')
      const topV = settings.bandCentreV + 1 + dropV(settings, reading, ground)
      expect(topV).toBeLessThanOrEqual(126 + 1e-9)
      expect(topV).toBeGreaterThan(125.4)
    }
  })

  test('what would need more than the limits leave is held back, and says to what share', () => {
    const candidates = compensatedCandidates(ground, centre(7))
    const share = 3 / ((7 * 50) / 60)
    expect(candidates.map(({ compensation }) => compensation?.share)).toEqual([
      1,
      expect.closeTo(share, 6),
    ])
    // 7 ohm · 100 A / 60 = 11.67 V, and of it the share, in half volts.
    expect(candidates.map(({ settings }) => settings)).toEqual([
      { bandCentreV: 119, rV: 11.5, xV: 0 },
      { bandCentreV: 122, rV: 6, xV: 0 },
    ])
  })

  test('what is negative or off the dial is not offered', () => {
    expect(compensatedCandidates(ground, centre(-3))).toEqual([])
    const faint = compensatedCandidates(ground, centre(20, 1.2))
    for (const { settings } of faint) expect(settings.rV).toBeLessThanOrEqual(MOST_COMPENSATION_V)
  })
})

describe('Settings of a proposed bank', () => {
  const result = sited(feederWith())
  const bank = bankOf(result)

  test('they say why in words, what plain ones would have given, and where R and X come from', () => {
    expect(bank.settings?.why).toMatch(/^R [\d.]+ V, X [\d.]+ V and a band centre of [\d.]+ V:/)
    expect(bank.settings?.why).toContain('Against 124 V without compensation this gives')
    expect(bank.settings?.plain).toMatchObject({ bandCentreV: 124, rV: 0, xV: 0 })
    expect(bank.settings?.chosen).toMatchObject({ bandCentreV: bank.bandCentreV, rV: bank.rV })
    expect(bank.settings?.compensation?.caseId).toBe('peak')
    expect(Object.keys(bank.settings?.compensation?.phases ?? {})).toEqual(['A', 'B', 'C'])
  })

  test('the power flow with the bank in the feeder gives the promised taps', () => {
    const extraBanks = [proposedRegulator(bank)]
    for (const solution of solveFeeder(feederWith(), { taps: 'controlled', extraBanks })) {
      if (solution.status !== 'converged') throw new Error(solution.status)
      expect(solution.regulators[0]?.taps).toEqual(bank.taps[solution.caseId])
    }
  })

  test('the request turns them off', () => {
    const plain = bankOf(sited(feederWith(), { compensation: 'none' }))
    expect(plain).toMatchObject({ bandCentreV: 124, rV: 0, xV: 0 })
    expect(plain.settings).toBeUndefined()
  })

  test('a searched position has no settings to work out', () => {
    expect(bankOf(sited(feederWith(), { taps: 'search' })).settings).toBeUndefined()
  })

  test('plain settings stay where nothing else is worth it, and it is said of how many', () => {
    const wide = { lowVolts120: 90, highVolts120: 140, bandCentreV: 115 }
    const { settings } = bankOf(sited(feederWith(), wide))
    expect(settings?.why).toMatch(/The band centre of 115 V asked for stays|serves better/)
  })

  test('the sun behind the bank never puts a customer outside that plain settings keep inside', () => {
    const noon = { id: 'noon', name: 'Noon', loadFactor: 0.1, generationFactor: 1 }
    const feeder = feederWith({
      cases: [...CASES, { ...noon, hoursPerYear: 800 }],
      equipment: [
        { kind: 'solar', id: 'sun', pole: 'p20', phases: 'ABC', ratedKw: 2500, powerFactor: 1 },
      ],
    })
    const outsideAtNoon = (request: object) =>
      sited(feeder, request).proposals[0]?.after.cases.noon?.customersOutside ?? Number.NaN
    expect(outsideAtNoon({})).toBeLessThanOrEqual(outsideAtNoon({ compensation: 'none' }))
  })

  test('they reach the settings sheet of the job', () => {
    const regulator = bankOfProposal(feederWith(), bank)
    const sheet = settingsSheet({ regulator } as Parameters<typeof settingsSheet>[0])
    const valueAt = (name: string) => sheet.find((line) => line.name === name)?.value
    expect(valueAt('Band centre')).toBe(`${bank.bandCentreV.toFixed(1)} V`)
    expect(valueAt('Line-drop compensation R')).toBe(`${bank.rV?.toFixed(1)} V`)
    expect(valueAt('Line-drop compensation X')).toBe(`${bank.xV?.toFixed(1)} V`)
    expect(valueAt('Current transformer primary')).toBe(`${bank.ctPrimaryA} A`)
  })

  test('a proposal kept before there were any still opens, and has none', () => {
    const { rV: _r, xV: _x, settings: _why, ...older } = bank
    expect(ProposedBank.parse(older)).toEqual(older)
    expect(proposedRegulator(older)).toMatchObject({ rV: 0, xV: 0 })
  })

  test('it stops at once when cancelled among the settings', () => {
    let told = 0
    const outcome = siteFeeder(feederWith(), SiteRequest.parse({}), {
      onProgress: (_done, _total, phase) => {
        if (phase === 'Working out the settings') told += 1
      },
      isCancelled: () => told >= 2,
    })
    expect(outcome.status).toBe('cancelled')
    expect(told).toBe(2)
  })
})
