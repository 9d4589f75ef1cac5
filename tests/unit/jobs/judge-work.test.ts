import { describe, expect, it } from 'vitest'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { ExpectedReading, JobPlan } from '#domain/jobs/job-plan.ts'
import { offerEntry, startRun } from '#domain/jobs/job-run.ts'
import { judgeStep } from '#domain/jobs/judge-reading.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { done, machinePlan, rightValues, step } from './machine-plan.ts'

/*
 * Readings that contradict what a step says is done. A step of a unit is 5/8 % of its volts, 0.75 V on
 * 120: IEEE C57.15, from memory. Which readings stop the work: common practice, no source.
 */

const amps = (value: number): ExpectedReading => ({
  ...{ phase: 'A', tap: 4, sourceV: 7000, loadV: 7200, sourceVolts120: 116.7, loadVolts120: 120 },
  ...{ relayVolts: 120, amps: value },
})
const expected = (...values: readonly number[]): JobPlan['expected'] =>
  values.map((value, index) => ({
    caseId: `c${index}`,
    caseName: `Case ${index}`,
    readings: [amps(value)],
  }))

const shipped = (order: string, id: string): Step => {
  const found = SHIPPED_SEQUENCES.find((each) => each.id === order)?.steps.find(
    (each) => each.id === id,
  )
  if (!found) throw new Error(`There is no step ${id} in ${order}.`)
  return found
}

/** A shipped step alone, without what it does to switches: only its readings are tried. */
function bare(order: string, id: string): Step {
  const { action: _action, ...alone } = shipped(order, id)
  return alone
}

function tried(
  one: Step,
  values: Readonly<Record<string, ReadValue>>,
  { loads = [100], remark = 'Looked again.' }: { loads?: readonly number[]; remark?: string } = {},
) {
  const run = startRun(machinePlan([one], { phases: 'A', more: { expected: expected(...loads) } }))
  const all = { ...rightValues(one), ...values }
  const offer = offerEntry(run, done('e', one.id, { phase: 'A', values: all, remark }))
  const verdicts = judgeStep(run, 'P2', one, 'A', all)
  return {
    isPassed: offer.ok,
    why: offer.ok ? '' : offer.why.join(' '),
    of: (askId: string) => verdicts.find((verdict) => verdict.askId === askId),
  }
}

describe('the jumper', () => {
  const check = bare('change-out', 'check-jumper')
  const carries = bare('change-out', 'jumper-carries')
  const over = bare('change-out', 'bypass-to-jumper')

  it('of 10 A is not hung up where 300 A flow', () => {
    const { isPassed, why } = tried(check, { rating: 10, load: 300 }, { loads: [300] })
    expect(isPassed).toBe(false)
    expect(why).toContain('Rated 10 A, and 300 A flow now')
    expect(tried(check, { rating: 300, load: 300 }, { loads: [300] }).isPassed).toBe(false)
  })

  it('above what flows now, but not above what is expected, asks for a word', () => {
    const read = { rating: 150, load: 90 }
    expect(tried(check, read, { loads: [90, 200] }).of('rating')?.verdict).toBe('doubtful')
    expect(tried(check, read, { loads: [90, 200], remark: '' }).isPassed).toBe(false)
    expect(
      tried(check, { rating: 300, load: 90 }, { loads: [90, 200] }).of('rating')?.verdict,
    ).toBe('good')
  })

  it('that carries nothing keeps the bypass closed, whatever is remarked', () => {
    expect(tried(carries, { shared: 0 })).toMatchObject({ isPassed: false })
    expect(tried(carries, { shared: 0 }).why).toContain('leave every other way of the line closed')
    expect(tried(carries, { shared: 3 }).isPassed).toBe(true)
  })

  it('is measured before the bypass opens, in a hold of its own', () => {
    const ids = SHIPPED_SEQUENCES.find(({ id }) => id === 'change-out')!.steps.map(({ id }) => id)
    expect(ids.indexOf('jumper-carries')).toBe(ids.indexOf('bypass-to-jumper') - 1)
    expect(ids.indexOf('bypass-carries')).toBe(ids.indexOf('jumper-off') - 1)
    expect([carries, bare('change-out', 'bypass-carries')].map((one) => one.isHoldPoint)).toEqual([
      true,
      true,
    ])
  })

  it('alone carries about what the line draws', () => {
    expect(tried(over, { amps: 0 }).isPassed).toBe(false)
    expect(tried(over, { amps: 20 }).of('amps')?.verdict).toBe('doubtful')
    expect(tried(over, { amps: 110 }).of('amps')?.verdict).toBe('good')
  })

  it('of a line that may draw next to nothing passes at zero with a word', () => {
    expect(tried(over, { amps: 0 }, { loads: [0.4, 30] }).of('amps')?.verdict).toBe('doubtful')
    expect(tried(over, { amps: 0 }, { loads: [0.4, 30] }).isPassed).toBe(true)
    expect(tried(over, { amps: 0 }, { loads: [] }).isPassed).toBe(false)
  })
})

describe('a bypass that carries nothing', () => {
  it.each([
    ['change-out', 'close-bypass'],
    ['change-out', 'bypass-carries'],
    ['change-out', 'jumper-off'],
    ['set-bank', 'switches-in'],
    ['remove-bank', 'line-through'],
    ['out-of-service', 'off-the-line'],
  ])('stops %s at %s', (order, id) => {
    const one = bare(order, id)
    expect(tried(one, { amps: 0 })).toMatchObject({ isPassed: false })
    expect(tried(one, { amps: 100 }).why).toBe('')
  })
})

describe('volts while the unit is tapped', () => {
  const through = bare('return-to-service', 'tap-through')
  const read = (up: number, down: number) => ({
    ...{ 'at-neutral': 120, 'steps-up': 3, 'steps-down': 3 },
    ...{ up, down },
  })

  it('follow by 0.75 V on 120 a step', () => {
    const { of } = tried(through, read(122.25, 117.75))
    expect([of('up')?.verdict, of('down')?.verdict]).toEqual(['good', 'good'])
    expect(of('up')?.words).toBe('The volts follow: 2.3 V on 120 over 3 steps.')
  })

  it('that fall as it raises, rise as it lowers or stand still stop the work', () => {
    for (const [up, down] of [
      [111, 117.75],
      [122.25, 170],
      [120, 117.75],
    ] as const) {
      expect(tried(through, read(up, down)).isPassed).toBe(false)
    }
    expect(tried(through, read(111, 170)).why).toContain('The volts fall by 9 V on 120 on raise')
  })

  it('that follow too far or too little ask for a word', () => {
    expect(tried(through, read(121, 117.75)).of('up')).toMatchObject({ verdict: 'doubtful' })
    expect(tried(through, read(126, 117.75)).of('up')).toMatchObject({ verdict: 'doubtful' })
    expect(tried(through, read(126, 117.75)).of('up')?.words).toContain(
      '2.3 V on 120 would be made',
    )
  })

  it('are told in any unit', () => {
    const asks = through.asks.map((asked) =>
      asked.kind === 'number' && asked.unit === 'V on 120' ? { ...asked, unit: 'V' } : asked,
    )
    const inVolts = { ...through, asks }
    // Three steps of 45 V at 7200 V.
    const values = { 'at-neutral': 7200, 'steps-up': 3, up: 7335, 'steps-down': 3, down: 7065 }
    expect(tried(inVolts, values).of('up')?.verdict).toBe('good')
    expect(tried(inVolts, { ...values, down: 7335 }).of('down')?.verdict).toBe('bad')
  })

  it('tell nothing without those at neutral', () => {
    const alone = judgeStep(startRun(machinePlan([through])), 'P2', through, 'A', { up: 122 })
    expect(alone.find(({ askId }) => askId === 'up')?.verdict).toBe('doubtful')
  })
})

describe('what cannot be read', () => {
  const found = bare('change-out', 'found')

  it('is refused where it is entered', () => {
    expect(tried(found, { tap: 40 }).why).toContain('“Tap position” takes -16 to 16 steps, not 40.')
    expect(tried(found, { counter: -1 }).why).toContain('“Operations counter” takes 0 or more')
    expect(tried(found, { tap: -16, counter: 0 }).why).toBe('')
  })

  it('is nothing that an older order refuses', () => {
    const older = step('found', {
      each: 'unit',
      asks: [{ id: 'tap', what: 'Tap', kind: 'number', unit: 'steps', isNeeded: true }],
    })
    expect(tried(older, { tap: 40 }).isPassed).toBe(true)
  })
})

describe('a serial number', () => {
  const nameplate = bare('change-out', 'nameplate')
  const takeDown = bare('change-out', 'take-down')
  const plan = machinePlan([nameplate, takeDown], { phases: 'AB' })
  const entry = (id: string, stepId: string, phase: 'A' | 'B', serial: string) =>
    done(id, stepId, {
      phase,
      values: { ...rightValues(stepId === 'nameplate' ? nameplate : takeDown), serial },
    })

  function worked(...serials: readonly [string, string, string?]) {
    let run = startRun(plan)
    const places = [
      ['nameplate', 'A'],
      ['nameplate', 'B'],
      ['take-down', 'A'],
    ] as const
    for (const [index, serial] of serials.entries()) {
      const [stepId, phase] = places[index]!
      const offer = offerEntry(run, entry(`e${index}`, stepId, phase, serial ?? ''))
      if (!offer.ok) return offer.why.join(' ')
      run = offer.run
    }
    return ''
  }

  it('of two units of a bank, or of the old and the new one, asks for a word', () => {
    expect(worked('X100', 'x 100')).toContain('The same serial number was read at unit A.')
    expect(worked('X100', 'X101', 'X101')).toContain('at unit B at another step, of another unit')
    expect(worked('X100', 'X101', 'X102')).toBe('')
  })

  it('that was entered is not held against itself', () => {
    const offer = offerEntry(startRun(plan), entry('e', 'nameplate', 'A', 'X100'))
    if (!offer.ok) throw new Error(offer.why.join(' '))
    const [verdict] = judgeStep(offer.run, 'P2', nameplate, 'A', { serial: 'X100' })
    expect(verdict?.verdict).toBe('good')
  })
})

describe('volts of the line where those of the control are asked for', () => {
  it('are told in one sentence, without a guess at what is wrong', () => {
    const { of, why } = tried(bare('change-out', 'found'), { 'load-volts': 12440 }, { remark: '' })
    expect(of('load-volts')).toMatchObject({ verdict: 'doubtful' })
    expect(of('load-volts')?.more).toBeUndefined()
    expect(of('load-volts')?.words).toContain('12440 V reads like volts of the line')
    expect(why).not.toContain('leads')
  })
})

describe('current above the rating of a unit', () => {
  it('is named, expected or not', () => {
    // The bank of the tests is rated 219 A.
    const found = bare('change-out', 'found')
    const words = (read: number, load: number) =>
      tried(found, { amps: read }, { loads: [load] }).of('amps')?.words
    expect(words(250, 240)).toContain('above the 219 A that one unit is rated for')
    expect(words(250, 100)).toContain('above the 219 A that one unit is rated for')
    expect(words(210, 200)).not.toContain('rated')
  })
})

describe('a torque where the marking is entered', () => {
  const torque = bare('change-out', 'torque')
  const verdictOf = (values: Record<string, ReadValue>) => tried(torque, values).of('torque')

  it('is held against the marking, which governs', () => {
    expect(verdictOf({ torque: 80, marking: 30 })).toMatchObject({ verdict: 'doubtful' })
    expect(verdictOf({ torque: 80, marking: 30 })?.words).toContain('above the 30 lb-ft marked')
    expect(verdictOf({ torque: 30, marking: 30 })?.verdict).toBe('good')
  })

  it('is sent to the marking where that is left empty', () => {
    const run = startRun(machinePlan([torque]))
    const [verdict] = judgeStep(run, 'P2', torque, 'A', { torque: 30 })
    expect(verdict?.more).toContain('It may be right: enter the marking.')
  })
})

describe('a no where yes is asked for', () => {
  it('says what it means and what to do', () => {
    const one = bare('change-out', 'run-to-neutral')
    const verdict = tried(one, { stopped: false }).of('stopped')
    expect(verdict?.words).toBe(
      'The unit is faulty: tap no more, leave the switches as they are, and call in.',
    )
  })

  it('is told by the question where the order says no more', () => {
    const older = step('look', {
      asks: [{ id: 'y', what: 'Open', kind: 'yes or no', isNeeded: true, judge: 'must be yes' }],
    })
    const [verdict] = judgeStep(startRun(machinePlan([older])), 'P2', older, undefined, {
      y: false,
    })
    expect(verdict?.words).toBe('“Open” must be yes.')
  })
})
