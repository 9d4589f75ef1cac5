import { describe, expect, it } from 'vitest'
import { changeInWords } from '../../../web/record/change-in-words.ts'
import type { StepText } from '../../../web/record/field-entry-in-words.ts'

const JOB = {
  title: 'East bank',
  state: 'issued',
  reason: '',
  dueOn: '2026-12-01',
  crew: '',
  note: '',
}

function told(subject: 'job' | 'as-left' | 'step-sequence', before: unknown, after: unknown) {
  const what = before === null ? 'added' : 'changed'
  return changeInWords({ subject, what, version: 2, reason: null, before, after })
}

describe('the history of a job', () => {
  it('tells a move with both states and the reason', () => {
    const after = { ...JOB, state: 'returned', reason: 'the gate is locked' }
    expect(told('job', JOB, after).headline).toBe(
      'Moved the job “East bank” from issued to returned, because: the gate is locked.',
    )
    expect(told('job', JOB, { ...JOB, state: 'in the field' }).headline).toBe(
      'Moved the job “East bank” from issued to in the field.',
    )
  })

  it('tells what was changed beside the state', () => {
    const { headline, fields } = told('job', JOB, { ...JOB, crew: 'north truck' })
    expect(headline).toBe('Changed the job “East bank”.')
    expect(fields).toEqual([{ label: 'Crew', from: '', to: 'north truck' }])
  })

  it('tells its drafting', () => {
    expect(told('job', null, JOB).headline).toBe('Drafted the job “East bank”.')
  })

  it('tells what was done at a pole by the words of the step, the unit and the kind of entry', () => {
    const common = { id: 'e-1', at: '2026-11-28T09:00:00.000Z', pole: 'W-1', signedBy: ['R. Vale'] }
    const text = `Prove neutral of this unit by ${'the indicator and the lamp '.repeat(4)}.`
    const said = (entry: object, stepText?: StepText) =>
      changeInWords(
        {
          subject: 'job-entry',
          what: 'added',
          version: 1,
          reason: null,
          before: null,
          after: { ...common, ...entry },
        },
        stepText,
      ).headline
    const done = { kind: 'step done', stepId: 'prove-neutral', phase: 'B' }
    const words = said(done, (pole, id) =>
      pole === 'W-1' && id === done.stepId ? text : undefined,
    )
    expect(words).toMatch(/^Step done at pole W-1, unit B: “Prove neutral of this unit by .*…”$/)
    expect(words.length).toBeLessThan(110)
    expect(said(done)).toBe('Step done at pole W-1, unit B: step “prove-neutral”')
    const leftOut = { kind: 'step left out', stepId: 'perch', why: 'no perch came' }
    expect(said(leftOut, () => 'Set the perch.')).toBe(
      'Step left out at pole W-1: “Set the perch.”, because: no perch came',
    )
    expect(said({ kind: 'remark', text: 'The gate sticks.' })).toContain('Remark at pole W-1')
    expect(said({ kind: 'deviation', text: 'Set lower.' })).toContain('Done otherwise than planned')
    expect(said({ kind: 'photo', what: '', attachmentId: 'a-1' })).toBe('Photo at pole W-1')
  })

  it('tells taps and serial numbers of what was left, from what to what', () => {
    const left = (tapLeft: number) => ({
      jobId: 'job-1',
      asLeft: { on: '2026-11-28', units: [{ phase: 'A', serialNumber: '4711', tapLeft }] },
    })
    expect(told('as-left', left(4), left(6)).fields).toEqual([
      { label: 'Units', from: 'A: serial 4711, tap 4 left', to: 'A: serial 4711, tap 6 left' },
    ])
  })

  it('tells which step of an order was changed', () => {
    const order = (text: string) => ({
      sequence: { id: 'ours', name: 'Ours', steps: [{ id: 'look', text }] },
    })
    const { headline, fields } = told('step-sequence', order('Look.'), order('Look twice.'))
    expect(headline).toBe('Changed the order of steps “Ours”.')
    expect(fields).toEqual([{ label: 'Step “Look twice.”', from: 'Look.', to: 'Look twice.' }])
  })
})
