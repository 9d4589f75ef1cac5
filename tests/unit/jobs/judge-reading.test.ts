import { describe, expect, it } from 'vitest'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { ExpectedReading, JobPlan, MistakeSign } from '#domain/jobs/job-plan.ts'
import { type JobRun, startRun } from '#domain/jobs/job-run.ts'
import { judgeStep } from '#domain/jobs/judge-reading.ts'
import type { JudgeName, Step } from '#domain/jobs/step-sequence.ts'
import { inFull } from '#domain/jobs/verdict.ts'
import type { Phase } from '#domain/units/phases.ts'
import { CHANGE_OUT_STEPS, machinePlan, step, workUntil } from './machine-plan.ts'

const reading = (
  phase: Phase,
  [sourceV, loadV, amps]: readonly [number, number, number],
  tap: number,
): ExpectedReading => ({
  phase,
  tap,
  sourceV,
  loadV,
  sourceVolts120: sourceV / 60,
  loadVolts120: loadV / 60,
  relayVolts: loadV / 60,
  amps,
})

/** Made up: a bank that raises by eight steps at peak and by two at light load. */
const EXPECTED: JobPlan['expected'] = [
  {
    caseId: 'peak',
    caseName: 'Peak',
    readings: [reading('A', [6900, 7245, 100], 8), reading('B', [7600, 7700, 60], 2)],
  },
  {
    caseId: 'light',
    caseName: 'Light',
    readings: [reading('A', [7150, 7240, 20], 2), reading('B', [7650, 7700, 15], 1)],
  },
]

const MISTAKES: readonly MistakeSign[] = [
  {
    mistake: 'source and load leads swapped',
    phase: 'A',
    signs: ['Load volts fall as it raises.'],
  },
  { mistake: 'source and load leads swapped', phase: 'B', signs: ['The same at B.'] },
  {
    mistake: 'polarity of one unit reversed',
    phase: 'A',
    signs: ['It lowers where it should raise.'],
  },
  { mistake: 'wrong potential ratio', signs: ['The control reads what the line has not.'] },
  { mistake: 'phases rolled', signs: ['Each unit reads its neighbour.'] },
]

const plan = machinePlan(CHANGE_OUT_STEPS, {
  more: { expected: EXPECTED, mistakes: [...MISTAKES] },
})
const inService = startRun(plan)
const atNeutral = workUntil(inService, 'prove-before')
const bridged = workUntil(inService, 'open-the-load-switch')

function judge(
  name: JudgeName,
  value: ReadValue,
  { run = inService, unit = 'V', phase = 'A' }: { run?: JobRun; unit?: string; phase?: Phase } = {},
) {
  const one = step('read', {
    each: 'unit',
    asks: [{ id: 'it', what: 'It', kind: 'number', unit, isNeeded: true, judge: name }],
  })
  const [verdict] = judgeStep(run, 'P2', one, phase, { it: value })
  if (!verdict) throw new Error('Expected a verdict.')
  return verdict
}

const told = (...read: Parameters<typeof judge>) => inFull(judge(...read))

describe('volts', () => {
  it('inside the window over the cases are good', () => {
    for (const value of [6900, 7000, 7150, 6900 * 0.98]) {
      expect(judge('source volts as expected', value).verdict).toBe('good')
    }
    expect(told('source volts as expected', 7000)).toContain('Peak, Light; 2.5 % either side')
  })

  it('outside of it are doubtful, and the window is said', () => {
    const { verdict, words } = judge('source volts as expected', 6500)
    expect(verdict).toBe('doubtful')
    expect(words).toContain('6500 V is below the expected 6728 to 7329 V')
  })

  it('are compared in the unit that they are read in', () => {
    expect(judge('source volts as expected', 117, { unit: 'V on 120' }).verdict).toBe('good')
    expect(judge('source volts as expected', 7, { unit: 'kV' }).verdict).toBe('good')
    expect(judge('source volts as expected', 117).verdict).toBe('doubtful')
  })

  it('on the load side are those of the source while the unit is at neutral', () => {
    expect(judge('load volts as expected', 6800).verdict).toBe('doubtful')
    expect(judge('load volts as expected', 6800, { run: atNeutral }).verdict).toBe('good')
  })

  it('below zero or in words are no reading', () => {
    expect(judge('load volts as expected', -1).verdict).toBe('bad')
    expect(judge('load volts as expected', 'much').verdict).toBe('bad')
  })

  it('that the power flow expects nothing of are doubtful, not good', () => {
    const { verdict, words } = judge('source volts as expected', 7200, { phase: 'C' })
    expect(verdict).toBe('doubtful')
    expect(words).toContain('no figure')
  })
})

describe('volts on 120', () => {
  it('are what the control makes of the line by its own ratio', () => {
    const { bank } = plan
    const run = startRun({
      ...plan,
      ...(bank && { bank: { ...bank, regulator: { ...bank.regulator, ptRatio: 63.5 } } }),
    })
    // 7245 V over 63.5 is 114.1 V, and over 60 it is 120.8 V.
    const on120 = { run, unit: 'V on 120' }
    expect(judge('load volts as expected', 114.1, on120).verdict).toBe('good')
    expect(judge('load volts as expected', 120.8, on120).verdict).toBe('doubtful')
  })
})

describe('what is read before anything is changed', () => {
  const FOUND: JobPlan['expected'] = [
    { caseId: 'peak', caseName: 'Peak', readings: [reading('A', [6900, 6900, 104], 0)] },
  ]
  const found = step('found', {
    each: 'unit',
    readsAsFound: true,
    asks: ['source volts as expected', 'load volts as expected'].map((judge, index) => ({
      ...{ id: `v${index}`, what: 'Volts', kind: 'number', unit: 'V', isNeeded: true },
      judge,
    })) as Step['asks'],
  })
  const after = { ...found, readsAsFound: false }
  const otherwise = /until then it may read otherwise/
  const verdictOf = (run: JobRun, one: Step, values: Record<string, ReadValue>) =>
    judgeStep(run, 'P2', one, 'A', values)[0]!

  const withFound = startRun({ ...plan, expectedFound: FOUND })

  it('is held against the bank as it stands, and what is read after it against the bank to stand', () => {
    expect(verdictOf(withFound, found, { v1: 6900 }).verdict).toBe('good')
    expect(verdictOf(withFound, after, { v1: 6900 }).verdict).toBe('doubtful')
    expect(verdictOf(withFound, after, { v1: 7240 }).verdict).toBe('good')
    expect(verdictOf(withFound, found, { v1: 7240 }).verdict).toBe('doubtful')
  })

  it('names no mistake, since nothing was done yet', () => {
    expect(inFull(verdictOf(withFound, after, { v1: 6600 }))).toContain('It would fit')
    expect(inFull(verdictOf(withFound, found, { v1: 6600 }))).not.toContain('It would fit')
  })

  it('says that it was worked out for the bank to stand only where the plan knows no better', () => {
    expect(inFull(verdictOf(inService, found, { v1: 6500 }))).toMatch(otherwise)
    expect(inFull(verdictOf(inService, after, { v1: 6500 }))).not.toMatch(otherwise)
    expect(inFull(verdictOf(withFound, found, { v1: 6500 }))).not.toMatch(otherwise)
  })

  it('in an older order is held against the plan, with that word, where the bank is changed', () => {
    expect(told('load volts as expected', 6500)).toMatch(otherwise)
    const newBank = machinePlan(CHANGE_OUT_STEPS, {
      kind: 'set a bank',
      more: { expected: EXPECTED },
    })
    const run = startRun(newBank)
    expect(told('load volts as expected', 6500, { run })).not.toMatch(otherwise)
  })

  it('at a control is read by the ratio of the bank that stands', () => {
    const bank = plan.bank!
    const run = startRun({
      ...plan,
      expectedFound: FOUND,
      bank: { ...bank, standing: { ...bank.regulator, ptRatio: 63.5 } },
    })
    const on120 = { ...found, asks: found.asks.map((asked) => ({ ...asked, unit: 'V on 120' })) }
    // 6900 V over 63.5 is 108.7 V, and over 60 it is 115 V.
    expect(verdictOf(run, on120 as Step, { v1: 108.7 }).verdict).toBe('good')
    expect(verdictOf(run, on120 as Step, { v1: 115 }).verdict).toBe('doubtful')
  })

  it('is alike on both sides of a bank that hangs bypassed, whatever tap it was worked out for', () => {
    const run = startRun(
      machinePlan(CHANGE_OUT_STEPS, { bankAtStart: 'bypassed', more: { expected: EXPECTED } }),
    )
    for (const id of ['v0', 'v1']) {
      expect(verdictOf(run, found, { [id]: 6900 }).verdict).toBe('good')
      expect(verdictOf(run, found, { [id]: 7150 }).verdict).toBe('good')
    }
    expect(verdictOf(run, found, { v1: 7500 }).verdict).toBe('doubtful')
  })
})

describe('the words of a verdict', () => {
  it('are one short sentence, and the rest is told apart', () => {
    const { words, more } = judge('load volts as expected', 6600)
    expect(words).toBe('6600 V is below the expected 7059 to 7426 V.')
    expect(more?.some((sentence) => sentence.startsWith('It would fit'))).toBe(true)
    expect(more).toContain('Look before going on, and say in the remark what it was.')
  })

  it('say the whole where the reading stops the step', () => {
    const one = step('look', {
      isHoldPoint: true,
      asks: [{ id: 'y', what: 'Open', kind: 'yes or no', isNeeded: true, judge: 'must be yes' }],
    })
    expect(judgeStep(inService, 'P2', one, undefined, { y: false })[0]?.more).toBeUndefined()
  })
})

describe('current', () => {
  it('goes with the load between the cases', () => {
    expect(judge('current as expected', 60, { unit: 'A' }).verdict).toBe('good')
    expect(judge('current as expected', 200, { unit: 'A' }).verdict).toBe('doubtful')
    expect(judge('current as expected', 2, { unit: 'A' }).verdict).toBe('doubtful')
  })

  it('may be any share of it while the bypass takes the rest', () => {
    expect(judge('current as expected', 2, { unit: 'A', run: bridged }).verdict).toBe('good')
  })
})

describe('a doubtful reading', () => {
  it('low on the load side of a unit that should raise fits swapped leads and a reversed polarity', () => {
    const words = told('load volts as expected', 6600)
    expect(words).toContain(
      'source and load leads swapped at unit A: Load volts fall as it raises.',
    )
    expect(words).toContain('polarity of one unit reversed')
    expect(words).toContain('wrong potential ratio')
    expect(words).not.toContain('The same at B.')
  })

  it('high there fits neither of the two', () => {
    const words = told('load volts as expected', 8100)
    expect(words).not.toContain('swapped')
    expect(words).not.toContain('polarity')
    expect(words).toContain('wrong potential ratio')
  })

  it('that is right for the neighbour fits rolled phases', () => {
    expect(told('source volts as expected', 7620)).toContain('phases rolled')
    expect(told('source volts as expected', 6000)).not.toContain('phases rolled')
  })

  it('at neutral shows neither leads nor polarity', () => {
    const words = told('load volts as expected', 6000, { run: atNeutral })
    expect(words).not.toContain('swapped')
    expect(words).not.toContain('polarity')
    expect(words).not.toContain('ratio')
  })

  it('of the control at neutral still fits a wrong ratio', () => {
    const read = { run: atNeutral, unit: 'V on 120' }
    expect(told('load volts as expected', 100, read)).toContain('wrong potential ratio')
  })
})

describe('the torque of shear-head fasteners', () => {
  // 75 to 85 lb-ft: common practice, no source. 1 lb-ft is 1.355818 N·m: NIST SP 811, from memory.
  const torque = (value: number, unit = 'lb-ft') =>
    judge('torque of shear-head fasteners', value, { unit }).verdict

  it('is usual from 75 to 85 lb-ft', () => {
    expect([75, 80, 85].map((value) => torque(value))).toEqual(['good', 'good', 'good'])
  })

  it('outside of it is doubtful, since the marking on the connector governs', () => {
    expect([40, 74, 86].map((value) => torque(value))).toEqual(['doubtful', 'doubtful', 'doubtful'])
    expect(told('torque of shear-head fasteners', 40)).toContain('marking')
  })

  it('of nothing is no torque', () => {
    expect(torque(0)).toBe('bad')
  })

  it('is read in newton metres where the step says so', () => {
    expect(torque(108, 'N·m')).toBe('good')
    expect(torque(80, 'N·m')).toBe('doubtful')
    expect(torque(80, 'ft-lb')).toBe('good')
  })
})

describe('what must be yes', () => {
  it('is yes, and nothing else', () => {
    expect(judge('must be yes', true).verdict).toBe('good')
    expect(judge('must be yes', 'Yes').verdict).toBe('good')
    expect(judge('must be yes', false).verdict).toBe('bad')
    expect(judge('must be yes', 'almost').verdict).toBe('bad')
  })
})

describe('what stops a step', () => {
  it('is a no at a hold point or at a switch, and not elsewhere', () => {
    const isStop = (more: Parameters<typeof step>[1]) => {
      const one = step('look', {
        each: 'unit',
        asks: [{ id: 'y', what: 'Open', kind: 'yes or no', isNeeded: true, judge: 'must be yes' }],
        ...more,
      })
      return judgeStep(inService, 'P2', one, 'A', { y: false })[0]?.isStop
    }
    expect(isStop({ isHoldPoint: true })).toBe(true)
    expect(isStop({ action: 'open the load switch' })).toBe(true)
    expect(isStop({})).toBe(false)
  })
})

describe('what is not entered', () => {
  it('gets no verdict', () => {
    const one = step('read', {
      asks: [{ id: 'it', what: 'It', kind: 'text', isNeeded: false, judge: 'must be yes' }],
    })
    expect(judgeStep(inService, 'P2', one, undefined, {})).toEqual([])
    expect(judgeStep(inService, 'P2', one, undefined, { it: '  ' })).toEqual([])
    expect(judgeStep(inService, 'elsewhere', one, undefined, { it: 'yes' })).toEqual([])
  })
})
