import { describe, expect, it } from 'vitest'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { JobPlan } from '#domain/jobs/job-plan.ts'
import { runOf } from '#domain/jobs/job-run.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { nextStepOf } from '../../../web/crew/jobs/next-step.ts'

const work = (pole: string) => ({
  pole,
  measures: [],
  openPairs: 0,
  openPairsAfter: 0,
  sequenceVersion: 0,
  sequence: {
    id: 'covers',
    name: 'Covers',
    forKinds: ['retrofit round'],
    source: 'of the test',
    steps: [
      { id: 'look', text: 'Look.' },
      { id: 'cover', text: 'Cover.' },
    ],
  },
})
const plan = JobPlan.parse({
  kind: 'retrofit round',
  poles: [work('P-1'), work('P-2')],
  kit: [],
  hazards: [],
  settings: [],
  expected: [],
  mistakes: [],
  notes: [],
})

const done = (pole: string, stepId: string): JobEntry => ({
  kind: 'step done',
  id: `${pole}-${stepId}`,
  at: '2026-11-28T09:00:00Z',
  pole,
  stepId,
  values: {},
  signedBy: ['R. Vance'],
})

function next(state: JobState, entries: readonly JobEntry[] = [], hasAsLeft = false) {
  const { run, refused } = runOf(plan, entries)
  expect(refused).toEqual([])
  return nextStepOf({ state, run, order: ['P-2', 'P-1'], hasAsLeft })
}

describe('the next step of a job', () => {
  it('is to begin at the first pole of the round where it is issued', () => {
    expect(next('issued')).toEqual({ kind: 'begin', poleId: 'P-2' })
  })

  it('is the pole that was begun, before others of the round', () => {
    expect(next('in the field')).toEqual({
      kind: 'steps',
      poleId: 'P-2',
      count: { done: 0, leftOut: 0, all: 2 },
    })
    expect(next('in the field', [done('P-1', 'look')])).toEqual({
      kind: 'steps',
      poleId: 'P-1',
      count: { done: 1, leftOut: 0, all: 2 },
    })
  })

  it('is to write what stands there once all steps are gone through, and then to end', () => {
    const all = ['P-1', 'P-2'].flatMap((pole) => [done(pole, 'look'), done(pole, 'cover')])
    expect(next('in the field', all)).toEqual({ kind: 'as-left' })
    expect(next('in the field', all, true)).toEqual({ kind: 'end' })
  })

  it('is the supervisor’s after that, and the crew’s again with a reason where it came back', () => {
    expect(next('work done')).toEqual({ kind: 'nothing' })
    expect(next('drafted')).toEqual({ kind: 'nothing' })
    expect(next('returned')).toEqual({ kind: 'resume' })
  })
})
