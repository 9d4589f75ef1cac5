import { describe, expect, test } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Equipment, Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { proposedRegulator } from '#domain/siting/proposed-regulator.ts'
import { type SiteOutcome, siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { SiteResult } from '#domain/siting/site-result.ts'
import { LINE, longFeeder } from './long-feeder.ts'

function done(outcome: SiteOutcome): SiteResult {
  if (outcome.status !== 'done') throw new Error(`Expected a result, got ${outcome.status}.`)
  return outcome.result
}

const site = (feeder: Feeder, request: object = {}) =>
  done(siteFeeder(feeder, SiteRequest.parse(request)))

const standingBank = (change: Partial<Regulator> = {}): Equipment => ({
  kind: 'regulator',
  id: 'r1',
  pole: 'p6',
  span: 'p6:p7',
  phases: 'ABC',
  windingType: 'B',
  connection: 'wye',
  ptRatio: 60,
  ctPrimaryA: 250,
  bandCentreV: 122,
  bandwidthV: 2,
  rV: 0,
  xV: 0,
  delayS: 45,
  tapA: 0,
  tapB: 0,
  tapC: 0,
  maxRaise: 16,
  maxLower: 16,
  ...change,
})

describe('One bank for a line that is low at its far end', () => {
  const feeder = longFeeder()
  const result = site(feeder)
  const best = result.proposals[0]

  test('the line has a problem, and the best pole solves it in every case', () => {
    expect(result.before.cases.peak?.customersOutside).toBeGreaterThan(30)
    expect(best?.after.cases.peak?.customersOutside).toBe(0)
    expect(best?.after.cases.light?.customersOutside).toBe(0)
  })

  test('it agrees with the schema that the server answers with', () => {
    expect(SiteResult.safeParse(result).success).toBe(true)
  })

  test('every pole that could carry a bank was tried, and each other pole has its reasons', () => {
    expect(result.tried).toBe(20)
    expect(result.candidates).toHaveLength(20)
    expect(result.excluded.map(({ pole }) => pole)).toEqual(['p20'])
    expect(result.proof).toBe(
      'All 20 eligible poles tried with one bank with its taps under control in 2 cases.',
    )
  })

  test('solving the feeder with the proposed bank in it gives the promised taps and voltages', () => {
    const bank = best?.banks[0]
    if (!best || !bank) throw new Error('Expected a proposal.')
    const extraBanks = [proposedRegulator(bank)]
    for (const solution of solveFeeder(feeder, { taps: 'controlled', extraBanks })) {
      if (solution.status !== 'converged') throw new Error(solution.status)
      expect(solution.regulators[0]?.taps).toEqual(bank.taps[solution.caseId])
      expect(best.after.cases[solution.caseId]?.lossKw).toBeCloseTo(solution.totals.lossKw, 4)
    }
  })

  test('the unit carries the peak current of any case with the margin asked for', () => {
    const bank = best?.banks[0]
    expect(bank?.ratingA).toBeGreaterThanOrEqual((bank?.peakA ?? Number.NaN) * 1.25)
    expect(bank?.ptRatio).toBe(60)
    expect(bank?.ctPrimaryA).toBeGreaterThanOrEqual(bank?.ratingA ?? Number.NaN)
  })

  test('proposals are ranked by customers outside, then by present worth', () => {
    const keys = result.proposals.map((proposal) => {
      const outside = Object.values(proposal.after.cases).reduce(
        (n, c) => n + c.customersOutside,
        0,
      )
      return outside * 1e9 + proposal.presentWorthUsd
    })
    expect(keys).toEqual(keys.toSorted((a, b) => a - b))
    expect(result.proposals.map(({ rank }) => rank)).toEqual(keys.map((_, index) => index + 1))
  })

  test('money follows from the losses: yearly saving and cost less its present worth', () => {
    if (!best) throw new Error('Expected a proposal.')
    const kwh = (effect: typeof best.after) =>
      1500 * (effect.cases.peak?.lossKw ?? 0) + 7260 * (effect.cases.light?.lossKw ?? 0)
    expect(best.energyLossKwhPerYear).toBeCloseTo(kwh(best.after), 6)
    const savedUsd = (kwh(result.before) - kwh(best.after)) * 0.06
    expect(best.lossSavedUsdPerYear).toBeCloseTo(savedUsd, 6)
    expect(best.costUsd).toBe(100_000)
    expect(best.presentWorthUsd).toBeCloseTo(100_000 - savedUsd * 10.594, 0)
  })

  test('the reason says what changes, where, and from where the bank serves', () => {
    expect(best?.reason).toMatch(/^Takes customers outside 118 to 126 V from \d+ to 0 \(Peak\)\. /)
    expect(best?.reason).toMatch(
      /The lowest voltage rises from [\d.]+ to [\d.]+ V \(pole p\d+, phase [ABC], Peak\)\./,
    )
    expect(best?.reason).toMatch(
      /The bank stands [\d.]+ mi \([\d.]+ km\) out with [\d,]+ kVA beyond it, where/,
    )
  })

  test('the limits are those of the primary, with the service ranges beside them', () => {
    expect(result.notes.join(' ')).toContain('114 to 126 V as Range A')
  })
})

describe('What the person chooses', () => {
  test('limits may be set; wider ones leave nobody outside', () => {
    const result = site(longFeeder(), { lowVolts120: 90, highVolts120: 130 })
    expect(result.before.cases.peak?.customersOutside).toBe(0)
    expect(result.notes.join(' ')).toContain('No customer is outside limits as the feeder stands')
  })

  test('only the cases asked for are judged', () => {
    const result = site(longFeeder(), { caseIds: ['light'] })
    expect(Object.keys(result.before.cases)).toEqual(['light'])
  })

  test('a case that the feeder does not have is refused with the ones that it has', () => {
    const outcome = siteFeeder(longFeeder(), SiteRequest.parse({ caseIds: ['noon'] }))
    if (outcome.status !== 'rejected') throw new Error(outcome.status)
    expect(outcome.findings[0]?.what).toContain('"noon"')
    expect(outcome.findings[0]?.remedy).toContain('peak, light')
  })

  test('load points count where no customers are recorded', () => {
    const loads = longFeeder().loads.map((load) => ({ ...load, customers: 0 }))
    const result = site(longFeeder({ loads }))
    expect(result.before.cases.peak?.customersOutside).toBeGreaterThan(5)
    expect(result.before.cases.peak?.customersOutside).toBeLessThanOrEqual(20)
    expect(result.notes[0]).toContain('each load point counts as one')
    expect(result.proposals[0]?.reason).toContain('load points outside')
  })

  test('cases without hours give no yearly value, and that is said', () => {
    const result = site(longFeeder({ cases: [{ id: 'peak', hoursPerYear: 0 }] }))
    expect(result.proposals[0]?.lossSavedUsdPerYear).toBe(0)
    expect(result.notes.join(' ')).toContain('no hours per year')
  })
})

describe('Banks that stand already', () => {
  test('a new bank beyond one waits 15 s longer', () => {
    const result = site(longFeeder({ equipment: [standingBank()] }))
    const beyond = result.proposals.find(({ banks }) => (banks[0]?.distanceM ?? 0) > 3000)
    expect(beyond?.banks[0]?.delayS).toBe(60)
  })

  test('a new bank before one waits 15 s less', () => {
    const equipment = [standingBank({ pole: 'p18', span: 'p18:p19' })]
    const result = site(longFeeder({ equipment }))
    const before = result.proposals.find(({ banks }) => (banks[0]?.distanceM ?? 9e9) < 9000)
    expect(before?.banks[0]?.delayS).toBe(30)
  })

  test('where the other bank leaves no room for that, the proposal says what it must wait', () => {
    const equipment = [standingBank({ pole: 'p18', span: 'p18:p19', delayS: 20 })]
    const before = site(longFeeder({ equipment })).proposals.find(
      ({ banks }) => (banks[0]?.distanceM ?? 9e9) < 9000,
    )
    expect(before?.flags.join(' ')).toContain(
      'Bank r1 beyond it must wait at least 30 s; it is set to 20 s.',
    )
  })
})

describe('Flags', () => {
  test('power that flows back through the bank is flagged in its case', () => {
    const feeder = longFeeder({
      cases: [{ id: 'peak' }, { id: 'noon', name: 'Noon', loadFactor: 0.1, generationFactor: 1 }],
      equipment: [
        { kind: 'solar', id: 'sun', pole: 'p20', phases: 'ABC', ratedKw: 900, powerFactor: 1 },
      ],
    })
    const flags = site(feeder).proposals.flatMap((proposal) => proposal.flags)
    expect(flags.join(' ')).toMatch(/\d+ kW flow back toward the source in Noon/)
  })

  test('a bank at the end of its range is flagged with its positions', () => {
    const loads = longFeeder().loads.map((load) => ({ ...load, kwA: 150 }))
    const result = site(longFeeder({ loads }), { bandCentreV: 130, highVolts120: 140 })
    expect(result.proposals.flatMap(({ flags }) => flags).join(' ')).toMatch(
      /At the end of its range in Peak: .*\+16/,
    )
  })

  test('growth that outruns the rating is flagged with the years it takes', () => {
    const feeder = longFeeder()
    feeder.header.growthPctPerYear = 4
    expect(site(feeder).proposals[0]?.flags.join(' ')).toMatch(
      /At 4 % growth a year the peak current passes the \d+ A rating after about \d+ years/,
    )
  })
})

describe('Neighbours with the same result', () => {
  test('they stand beside a proposal instead of filling the list', () => {
    const result = site(longFeeder(), { sameWithinPct: 50 })
    const named = result.proposals.flatMap(({ banks }) => banks.map(({ pole }) => pole))
    for (const { nearAlternatives } of result.proposals) {
      for (const pole of nearAlternatives) expect(named).not.toContain(pole)
    }
    expect(result.proposals.some(({ nearAlternatives }) => nearAlternatives.length > 0)).toBe(true)
  })
})

describe('Two banks', () => {
  const heavy = longFeeder({
    loads: longFeeder().loads.map((load) => ({ ...load, kwA: 130, kwB: 130, kwC: 130 })),
  })

  test('they reach customers that one bank cannot', () => {
    const one = site(heavy).proposals[0]?.after.cases.peak?.customersOutside ?? Number.NaN
    const result = site(heavy, { banks: 2 })
    expect(one).toBeGreaterThan(0)
    expect(result.proposals[0]?.after.cases.peak?.customersOutside).toBeLessThan(one)
    expect(result.proposals[0]?.banks).toHaveLength(2)
  })

  test('the one beyond the other waits longer, and the proof counts every pair', () => {
    const result = site(heavy, { banks: 2 })
    const [near, far] = result.proposals[0]?.banks ?? []
    expect(far?.distanceM).toBeGreaterThan(near?.distanceM ?? Number.NaN)
    expect(far?.delayS).toBe((near?.delayS ?? Number.NaN) + 15)
    expect(result.proof).toContain('190 pairs of poles')
  })

  test('where one bank does as well for less, that is said', () => {
    expect(site(longFeeder(), { banks: 2 }).notes.join(' ')).toMatch(
      /One bank at p\d+ alone does as well/,
    )
  })
})

describe('Long work', () => {
  test('progress names its phases and reaches the last pole', () => {
    const seen = new Map<string, number>()
    siteFeeder(longFeeder(), SiteRequest.parse({}), {
      onProgress: (value, total, phase) => {
        expect(value).toBeLessThanOrEqual(total)
        seen.set(phase, value)
      },
    })
    expect([...seen.keys()]).toEqual([
      'Screening poles',
      'Trying one bank',
      'Working out the settings',
    ])
    expect(seen.get('Trying one bank')).toBe(20)
  })

  test('it stops at once when cancelled', () => {
    let tried = 0
    const outcome = siteFeeder(longFeeder(), SiteRequest.parse({ banks: 2 }), {
      onProgress: (value, _total, phase) => {
        if (phase === 'Trying two banks') tried = value
      },
      isCancelled: () => tried >= 5,
    })
    expect(outcome.status).toBe('cancelled')
    expect(tried).toBe(5)
  })
})

describe('Feeders that cannot be sited', () => {
  test('a loop is refused with its finding', () => {
    const spans = [...LINE.spans, { from: 'p20', to: 'p10' }]
    const outcome = siteFeeder(longFeeder({ spans }), SiteRequest.parse({}))
    if (outcome.status !== 'rejected') throw new Error(outcome.status)
    expect(outcome.findings.some(({ code }) => code === 'loop')).toBe(true)
  })

  test('a load that the line cannot carry is an answer, not a number', () => {
    const loads = longFeeder().loads.map((load) => ({ ...load, kwA: 4000 }))
    const outcome = siteFeeder(longFeeder({ loads }), SiteRequest.parse({}))
    expect(outcome).toMatchObject({ status: 'not-converged', caseId: 'peak' })
  })

  test('where no pole passes the screen there is no proposal, and it is said why', () => {
    const poles = LINE.poles.map((pole) => ({ ...pole, poleClass: '7' }))
    const result = site(longFeeder({ poles }))
    expect(result.proposals).toEqual([])
    expect(result.excluded).toHaveLength(21)
    expect(result.notes.join(' ')).toContain('No pole passed the screen')
  })
})
