import { describe, expect, it } from 'vitest'
import { JOB_MOVES } from '#domain/jobs/job-state.ts'
import { inOrderOfNeed } from '../../../web/jobs/job-order.ts'
import {
  dueInWords,
  isLate,
  moveInWords,
  polesInWords,
  progressInWords,
  stepsInWords,
} from '../../../web/jobs/job-words.ts'
import { aJob } from './a-job.ts'

const TODAY = '2026-11-28'

describe('when a job is due', () => {
  it.each([
    ['2026-12-01', 'due in 3 days'],
    ['2026-11-29', 'due tomorrow'],
    ['2026-11-28', 'due today'],
    ['2026-11-27', '1 day late'],
    ['2026-11-24', '4 days late'],
  ])('%s reads as “%s”', (dueOn, words) => {
    expect(dueInWords(aJob({ dueOn }), TODAY)).toBe(words)
  })

  it('counts days over the end of summer time, when one day has 25 hours', () => {
    expect(dueInWords(aJob({ dueOn: '2026-11-02' }), '2026-10-31')).toBe('due in 2 days')
  })

  it('is not late any more once its work is done', () => {
    const job = aJob({ dueOn: '2026-11-24', state: 'work done' })
    expect(isLate(job, TODAY)).toBe(false)
    expect(dueInWords(job, TODAY)).toBe('was due 2026-11-24')
  })

  it('that was done early is not said to be past', () => {
    const job = aJob({ dueOn: '2026-11-30', state: 'work done' })
    expect(dueInWords(job, TODAY)).toBe('due 2026-11-30')
    expect(dueInWords({ ...job, dueOn: TODAY }, TODAY)).toBe('due 2026-11-28')
  })

  it('is still late while it is returned', () => {
    expect(isLate(aJob({ dueOn: '2026-11-24', state: 'returned' }), TODAY)).toBe(true)
  })
})

describe('jobs in their order', () => {
  it('has late ones first, then those that are due first, then those without a date', () => {
    const jobs = [
      aJob({ id: 'no date' }),
      aJob({ id: 'next week', dueOn: '2026-12-05' }),
      aJob({ id: 'late', dueOn: '2026-11-20' }),
      aJob({ id: 'done and past', dueOn: '2026-11-10', state: 'work done' }),
    ]
    expect(inOrderOfNeed(jobs, TODAY).map(({ id }) => id)).toEqual([
      'late',
      'done and past',
      'next week',
      'no date',
    ])
  })
})

describe('steps of a job', () => {
  it('that were left out are not told as done', () => {
    expect(stepsInWords({ done: 121, leftOut: 1, all: 121 })).toBe(
      '120 of 121 steps done, 1 left out',
    )
  })

  it('say nothing of left out ones where there are none, or nobody counted them', () => {
    expect(stepsInWords({ done: 1, leftOut: 0, all: 1 })).toBe('1 of 1 step done')
    expect(progressInWords({ stepsDone: 3, stepsAll: 40 })).toBe('3 of 40 steps done')
  })
})

describe('a move', () => {
  it('says what it means, whichever it is', () => {
    for (const move of JOB_MOVES) {
      const { button, means } = moveInWords(move)
      expect(button).not.toBe('')
      expect(means).toMatch(/\.$/)
    }
  })

  it('back to the field is not called a beginning', () => {
    const again = moveInWords({ from: 'returned', to: 'in the field' })
    expect(again.button).toBe('Send back to the field')
    expect(again.button).not.toBe(moveInWords({ from: 'issued', to: 'in the field' }).button)
  })
})

describe('poles of a job', () => {
  it('are named as long as they are few, and counted then', () => {
    expect(polesInWords(['W-1'])).toBe('pole W-1')
    expect(polesInWords(['1', '2', '3'])).toBe('poles 1, 2 and 3')
    expect(polesInWords(['1', '2', '3', '4', '5', '6'])).toBe('poles 1, 2, 3 and 3 more')
  })
})
