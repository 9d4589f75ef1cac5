import { describe, expect, it } from 'vitest'
import { Step } from '#domain/jobs/step-sequence.ts'
import { IN_SERVICE, NOT_YET_SET } from '#domain/jobs/unit-state.ts'
import { groupOutbox, hangTogether } from '../../../web/crew/outbox/outbox-groups.ts'
import { outboxInWords, standingOf } from '../../../web/crew/outbox/outbox-words.ts'
import {
  placeInWords,
  shortened,
  stepInWords,
  valueInWords,
} from '../../../web/crew/work/step-words.ts'
import { switchesInWords } from '../../../web/crew/work/switch-words.ts'
import { item } from './made-job.ts'

describe('the outbox', () => {
  it('says how many things wait and how many need the person', () => {
    const waiting = item('waiting-1', 'sendEntries', {})
    const conflict = item('conflict-1', 'putAsLeft', {}, { state: 'conflict' })
    const refused = item('refused-1', 'sendEntries', {}, { state: 'refused' })
    const aside = { ...refused, setAsideAt: '2026-11-20T15:00:00.000Z' }
    expect(outboxInWords([])).toBe('Nothing waits to be sent.')
    expect(outboxInWords([waiting])).toBe('1 thing waits on this device.')
    expect(outboxInWords([waiting, waiting, conflict, refused])).toBe(
      '2 things wait on this device, 2 need you.',
    )
    expect(outboxInWords([aside])).toBe('Nothing waits to be sent.')
    expect([conflict, aside].map(standingOf)).toEqual(['conflict', 'set aside'])
  })
})

describe('the groups of the outbox', () => {
  it('are one a job, those that need the person first, and what is of no job last', () => {
    const groups = groupOutbox([
      item('of none', 'attach', {}, { jobId: undefined }),
      item('a-1', 'sendEntries', {}, { jobId: 'A' }),
      item('b-1', 'sendEntries', {}, { jobId: 'B', state: 'kept' }),
      item('a-2', 'sendEntries', {}, { jobId: 'A', state: 'sending' }),
      item('c-1', 'putAsLeft', {}, { jobId: 'C', state: 'conflict' }),
      item('c-2', 'sendEntries', {}, { jobId: 'C' }),
    ])
    expect(groups.map(({ jobId }) => jobId)).toEqual(['C', 'A', null, 'B'])
    const [c, a, none] = groups
    expect(c?.forYou.map(({ id }) => id)).toEqual(['c-1'])
    expect(a?.unsent.map(({ id }) => id)).toEqual(['a-1', 'a-2'])
    expect([c, a, none].map((group) => group && hangTogether(group))).toEqual([false, true, false])
  })
})

describe('a step', () => {
  const step = Step.parse({
    id: 'prove',
    text: 'Prove neutral. All that are read must agree.',
    asks: [
      {
        id: 'indicator',
        what: 'Indicator',
        kind: 'number',
        unit: 'steps',
        judge: 'position indicator at neutral',
      },
      {
        id: 'readout',
        what: 'Readout',
        kind: 'number',
        unit: 'steps',
        judge: 'control readout at neutral',
      },
    ],
  })

  it('is named with its place, its unit and its first sentence', () => {
    expect(placeInWords(6, 31, 'B')).toBe('Step 7 of 31, B phase')
    expect(stepInWords('done', step, 'B', 'W-742')).toBe(
      'Step done at pole W-742, B phase: Prove neutral.',
    )
    expect(shortened('word '.repeat(40)).length).toBeLessThan(83)
  })

  it('tells its readings with their units', () => {
    const [indicator] = step.asks
    if (!indicator) throw new Error('Expected something asked.')
    expect(valueInWords(indicator, -3)).toBe('−3 steps')
    expect(valueInWords(indicator, true)).toBe('yes')
  })
})

describe('the switches of a unit', () => {
  it('are told one by one', () => {
    expect(switchesInWords(IN_SERVICE)).toEqual([
      'bypass open',
      'S closed',
      'L closed',
      'neutral-side switch closed',
      'jumper off',
      'tap not known',
      'tap drive working',
    ])
    expect(switchesInWords(NOT_YET_SET)).toContain('unit off the pole')
  })
})
