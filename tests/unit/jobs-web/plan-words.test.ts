import { describe, expect, it } from 'vitest'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BypassedCase, ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import {
  bankStanding,
  isDrawnAlike,
  standingInWords,
} from '../../../web/jobs/plan/bank-standing.ts'
import { expectedParts } from '../../../web/jobs/plan/expected-parts.ts'
import { loadToChoose } from '../../../web/jobs/plan/load-to-choose.ts'
import { neutralSideInWords, serialsInWords } from '../../../web/jobs/plan/unit-words.ts'

const BANK = { kind: 'regulator', id: 'R-1', phases: 'ABC' } as unknown as Regulator
const BYPASSED: Regulator = { ...BANK, state: 'bypassed' }

function planOf(kind: JobKind, about: Partial<JobPlan>, standing?: Regulator): JobPlan {
  const bank = { regulator: BANK, ...(standing && { standing }), neutralV: 7200, loopOhm: 0.1 }
  return { kind, bank, expected: [], ...about } as unknown as JobPlan
}

describe('how a bank stands before a job and after it', () => {
  const words = (kind: JobKind, standing?: Regulator) => {
    const { before, after } = bankStanding(kind, planOf(kind, {}, standing).bank as never)
    return [before, after].map((each) => standingInWords(each).split(':')[0])
  }

  it('is told for each kind of work', () => {
    expect(words('set a bank')).toEqual(['no bank', 'in service'])
    expect(words('take a bank out of service', BANK)).toEqual(['in service', 'out of service'])
    expect(words('return a bank to service', BYPASSED)).toEqual(['out of service', 'in service'])
    expect(words('change out a bank', BYPASSED)).toEqual(['out of service', 'in service'])
    expect(words('remove a bank', BYPASSED)).toEqual(['out of service', 'no bank'])
    // As older plans have it, without the bank that stands.
    expect(words('change settings')).toEqual(['in service', 'in service'])
  })

  it('is drawn twice only where the switches differ', () => {
    expect(isDrawnAlike(BANK, { ...BANK, bandCentreV: 124 })).toBe(true)
    expect(isDrawnAlike(BANK, { ...BANK, neutralSide: 'solid', state: 'in service' })).toBe(true)
    expect(isDrawnAlike(BANK, BYPASSED)).toBe(false)
    expect(isDrawnAlike(BANK, { ...BANK, neutralSide: 'switched' })).toBe(false)
  })

  it('names serial numbers and neutral side as far as they are recorded', () => {
    expect(serialsInWords(BANK)).toBe('')
    expect(serialsInWords({ ...BANK, serialA: '4711', serialC: '4713' })).toBe(
      'A 4711, B not recorded and C 4713',
    )
    expect(neutralSideInWords(BANK)).toBe('')
    expect(neutralSideInWords({ neutralSide: 'switched' })).toContain('disconnect switch')
  })
})

describe('what meters should show', () => {
  const cases = [{ caseId: 'peak', caseName: 'Peak', readings: [] }] as ExpectedCase[]
  const when = (plan: JobPlan) => expectedParts(plan).map((part) => part.when)

  it('is said once where the plan has it once, as older plans do', () => {
    expect(when(planOf('change out a bank', { expected: cases }, BANK))).toEqual([null])
  })

  it('is told apart before the work and after it', () => {
    const both = { expected: cases, expectedFound: cases }
    expect(when(planOf('change settings', both, BANK))).toEqual([
      'Before the work, with the bank as it stands',
      'After the work',
    ])
    expect(when(planOf('return a bank to service', both, BYPASSED))[0]).toContain('bypassed')
    // A bank that goes is in service neither before the work nor after it.
    expect(when(planOf('remove a bank', both, BYPASSED))[1]).toBe('If the bank were in service')
    expect(when(planOf('take a bank out of service', { expected: cases }, BANK))).toEqual([
      'Before the work, with the bank in service',
    ])
  })
})

describe('the load to bypass a bank at', () => {
  const one = (caseName: string, customersOutside: number, volts120 = 118): BypassedCase => ({
    caseId: caseName,
    caseName,
    customersOutside,
    customersOutsideInService: 1,
    lowest: { pole: 'W-9', phase: 'C', volts120 },
  })
  const said = (kind: JobKind, whileBypassed: BypassedCase[], standing = BANK) =>
    loadToChoose(planOf(kind, { whileBypassed }, standing))

  it('is the one with the fewest customers outside, and of equals that with the highest volts', () => {
    const loads = [one('Peak', 40), one('Light', 3), one('Noon', 9)]
    expect(said('change out a bank', loads)).toBe(
      'Bypass it at a load like Light, when the fewest are outside the limits: 3 customers.',
    )
    expect(said('change out a bank', [one('Peak', 4), one('Light', 0)])).toContain('nobody')
    expect(said('change out a bank', [one('Peak', 4, 116), one('Noon', 4, 119)])).toContain('Noon')
  })

  it('is any where none is put outside by it, and says how long it stays so', () => {
    const taken = said('take a bank out of service', [one('Peak', 1), one('Light', 0)])
    expect(taken).toContain('no more customers')
    expect(taken).toContain('until the bank is returned to service')
  })

  it('is not chosen where the bank hangs bypassed already', () => {
    expect(said('return a bank to service', [one('Peak', 40)], BYPASSED)).toContain('bypassed now')
  })
})
