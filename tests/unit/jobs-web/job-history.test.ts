import { describe, expect, it } from 'vitest'
import { changeInWords } from '../../../web/record/change-in-words.ts'

const JOB = {
  title: 'East bank',
  state: 'issued',
  reason: '',
  dueOn: '2026-12-01',
  crew: '',
  note: '',
}

function told(
  subject: 'job' | 'job-entry' | 'as-left' | 'step-sequence',
  before: unknown,
  after: unknown,
) {
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

  it('tells its drafting, and what was done at a pole', () => {
    expect(told('job', null, JOB).headline).toBe('Drafted the job “East bank”.')
    const entry = { kind: 'step done', pole: 'W-1', stepId: 'prove-neutral', phase: 'B' }
    expect(told('job-entry', null, entry).headline).toBe(
      'Did the step prove-neutral, phase B at pole W-1.',
    )
    const leftOut = { kind: 'step left out', pole: 'W-1', stepId: 'perch', why: 'no perch came' }
    expect(told('job-entry', null, leftOut).headline).toContain('because: no perch came')
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
    expect(fields).toEqual([{ label: 'Step look', from: 'Look.', to: 'Look twice.' }])
  })
})
