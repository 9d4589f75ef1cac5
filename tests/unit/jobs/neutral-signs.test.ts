import { describe, expect, it } from 'vitest'
import type { ReadValue } from '#domain/jobs/job-entry.ts'
import { type JobRun, nextPlace, startRun } from '#domain/jobs/job-run.ts'
import { proofOf } from '#domain/jobs/judge-asked.ts'
import { judgeStep } from '#domain/jobs/judge-reading.ts'
import type { NeutralProof } from '#domain/jobs/neutral-proof.ts'
import { readAt } from '#domain/jobs/pole-run.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { AT_NEUTRAL, CHANGE_OUT_STEPS, machinePlan, workUntil } from './machine-plan.ts'

/*
 * Two independent signs that agree, and what is independent of what: common practice, no source.
 * Steps of 45 V at 7200 V: 5/8 % (IEEE C57.15, from memory).
 */

function stepOf(id: string): Step {
  const found = CHANGE_OUT_STEPS.find((each) => each.id === id)
  if (!found) throw new Error(`The tests have no step ${id}.`)
  return found
}

const proofStep = stepOf('prove-before')
const ready = workUntil(startRun(machinePlan()), 'prove-before')

function proofIn(run: JobRun, values: Record<string, ReadValue>): NeutralProof {
  const pole = run.poles.get('P2')
  if (!pole) throw new Error('The job of the tests has lost its pole.')
  return proofOf(proofStep, values, readAt(run.plan, pole, 'A'))
}

const proof = (values: Record<string, ReadValue>) => proofIn(ready, values)

describe('neutral', () => {
  it('is proven by all signs agreeing', () => {
    expect(proof({ ...AT_NEUTRAL })).toMatchObject({
      isProven: true,
      agreeing: ['tap changer', 'control', 'line'],
    })
  })

  it('is proven by position indicator and lamp', () => {
    expect(proof({ indicator: 0, lamp: true }).isProven).toBe(true)
  })

  it('is proven by position indicator and volts across on a fine meter', () => {
    expect(proof({ indicator: 0, across: 12, meter: 5 }).isProven).toBe(true)
  })

  it('is not proven by one sign alone', () => {
    expect(proof({ indicator: 0 })).toMatchObject({ isProven: false })
    expect(proof({ indicator: 0 }).words).toContain('two independent signs must agree')
  })

  it('is not proven by nothing', () => {
    expect(proof({}).words).toBe('Not proven: no sign was read.')
  })

  it('is not proven by lamp and readout, which both come from the control', () => {
    const { isProven, words } = proof({ lamp: true, readout: 0 })
    expect(isProven).toBe(false)
    expect(words).toContain('count once')
  })

  it('is not proven where one sign disagrees, however many agree', () => {
    const { isProven, words } = proof({ ...AT_NEUTRAL, lamp: false })
    expect(isProven).toBe(false)
    expect(words).toContain('Signs that disagree prove nothing')
    expect(proof({ ...AT_NEUTRAL, indicator: 1 }).isProven).toBe(false)
    expect(proof({ ...AT_NEUTRAL, readout: -1 }).isProven).toBe(false)
    expect(proof({ ...AT_NEUTRAL, across: 45 }).isProven).toBe(false)
  })

  it('is not proven by volts on a meter that cannot show a step, or on one that nobody named', () => {
    expect(proof({ indicator: 0, across: 0, meter: 100 }).isProven).toBe(false)
    expect(proof({ indicator: 0, across: 0 }).isProven).toBe(false)
  })

  it('is not told by volts across a unit that is bridged or dead: they are zero at any tap', () => {
    const bridged = workUntil(startRun(machinePlan()), 'open-the-load-switch')
    const dead = workUntil(startRun(machinePlan()), 'test-dead-and-ground')
    for (const run of [bridged, dead]) {
      const values = { indicator: 0, across: 0, meter: 1 }
      expect(proofIn(run, values).isProven).toBe(false)
      const verdicts = judgeStep(run, 'P2', proofStep, 'A', values)
      expect(verdicts.find(({ askId }) => askId === 'across')?.words).toContain(
        'no sign of neutral',
      )
    }
  })

  it('is told beside the last sign that was read, while they are being read', () => {
    const wordsOf = (values: Record<string, ReadValue>) =>
      judgeStep(ready, 'P2', proofStep, 'A', values).map(({ words }) => words)
    expect(wordsOf({ indicator: 0 })).toEqual([
      'The position indicator stands at neutral. Not proven: position indicator alone says neutral, and two independent signs must agree.',
    ])
    expect(wordsOf({ indicator: 0, lamp: true })).toEqual([
      'The position indicator stands at neutral.',
      'The neutral lamp is lit steadily. Neutral is proven by position indicator and neutral lamp.',
    ])
  })
})

describe('the signs, one by one', () => {
  const verdictOf = (askId: string, value: ReadValue, more: Record<string, ReadValue> = {}) =>
    judgeStep(ready, 'P2', proofStep, 'A', { ...more, [askId]: value }).find(
      (verdict) => verdict.askId === askId,
    )

  it('22 V across are near zero at 7200 V, and 23 V are half a step', () => {
    expect(verdictOf('across', 22, { meter: 1 })?.verdict).toBe('good')
    expect(verdictOf('across', 23, { meter: 1 })).toMatchObject({ verdict: 'bad' })
    expect(verdictOf('across', -90, { meter: 1 })?.words).toContain('2 steps of 45 V')
  })

  it('more volts across than any tap makes are another phase or a misplaced meter', () => {
    expect(verdictOf('across', 700, { meter: 1 })?.words).toContain('16 steps of 45 V')
    expect(verdictOf('across', 12470, { meter: 1 })).toMatchObject({ verdict: 'bad' })
    expect(verdictOf('across', 12470, { meter: 1 })?.words).toContain('not the same phase')
  })

  it('volts across beside a closed bypass count with a remark on where they were read', () => {
    const again = workUntil(ready, 'prove-after')
    const step = nextPlace(again, 'P2')!.step
    const across = judgeStep(again, 'P2', step, 'A', { indicator: 0, across: 0, meter: 1 }).find(
      ({ askId }) => askId === 'across',
    )
    expect(across?.verdict).toBe('doubtful')
    expect(across?.words).toContain('bushing to bushing')
  })

  it('volts across the closed bypass itself are no sign at all', () => {
    const again = workUntil(ready, 'prove-after')
    const look = { ...nextPlace(again, 'P2')!.step, action: undefined }
    const across = judgeStep(again, 'P2', look, 'A', { across: 0, meter: 1 }).find(
      ({ askId }) => askId === 'across',
    )
    expect(across).toMatchObject({ verdict: 'good' })
    expect(across?.words).toContain('no sign of neutral')
  })

  it('a meter of 22 V resolves half a step, one of 45 V does not', () => {
    expect(verdictOf('meter', 22)?.verdict).toBe('good')
    expect(verdictOf('meter', 45)?.verdict).toBe('bad')
    expect(verdictOf('meter', 0)?.verdict).toBe('bad')
  })

  it('volts without a meter are doubtful', () => {
    expect(verdictOf('across', 3)?.verdict).toBe('doubtful')
  })

  it('a pointer between two positions is not at neutral', () => {
    expect(verdictOf('indicator', 0)?.verdict).toBe('good')
    expect(verdictOf('indicator', 0.5)?.verdict).toBe('bad')
  })

  it('a pointer off neutral on a bridged unit tells nobody to tap it', () => {
    const bridged = workUntil(startRun(machinePlan()), 'open-the-load-switch')
    const [atBridged] = judgeStep(bridged, 'P2', proofStep, 'A', { indicator: 2 })
    expect(atBridged?.words).toContain('touch no control and no switch')
    expect(atBridged?.words).not.toContain('Run the unit')
    expect(verdictOf('indicator', 2, { readout: 2 })?.words).toContain('run the unit on in manual')
  })

  it('a pointer that alone says off neutral never has the unit run on: it may stick', () => {
    const others: readonly Record<string, ReadValue>[] = [
      { lamp: true },
      { readout: 0 },
      { across: 0, meter: 1 },
      { across: 12 },
    ]
    for (const other of others) {
      const words = verdictOf('indicator', 1, other)?.words
      expect(words).toContain(
        'tap nothing, leave the switches as they are, and find which is wrong',
      )
      expect(words).not.toMatch(/run the unit/i)
    }
    const alone = verdictOf('indicator', 1)?.words
    expect(alone).toContain('Read the other signs before the unit is moved')
    expect(alone).not.toMatch(/run the unit/i)
  })

  it('a readout off neutral against the rest never has the unit run on either', () => {
    const words = verdictOf('readout', 3, { indicator: 0, lamp: true })?.words
    expect(words).toContain('tap nothing')
    expect(words).not.toMatch(/run the unit/i)
  })

  it('a lamp and a readout that disagree are told apart by name', () => {
    const { words } = proof({ indicator: 0, lamp: true, readout: 2 })
    expect(words).toContain(
      'readout of the control says off neutral, against position indicator and neutral lamp',
    )
  })

  it('a lamp that is out or flickers is no steady lamp', () => {
    const lamp = {
      ...proofStep,
      asks: proofStep.asks.map((asked) =>
        asked.id === 'lamp'
          ? {
              ...asked,
              kind: 'choice' as const,
              options: ['lit steadily', 'flickering', 'out', 'unsteady'],
            }
          : asked,
      ),
    }
    const seen = ['lit steadily', 'steady', 'flickering', 'out', 'not steady', 'unsteady'].map(
      (value) => judgeStep(ready, 'P2', lamp, 'A', { lamp: value })[0]?.verdict,
    )
    expect(seen).toEqual(['good', 'good', 'bad', 'bad', 'bad', 'bad'])
  })
})
