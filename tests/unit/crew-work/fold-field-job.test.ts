import { describe, expect, it } from 'vitest'
import { nextPlace, stepsCount } from '#domain/jobs/job-run.ts'
import { foldFieldJob, isAnswerBehind } from '../../../web/crew/work/fold-field-job.ts'
import { answerOf, done, found, item } from './made-job.ts'

const by = { id: 'someone', role: 'crew' } as const
const keptAt = '2026-11-20T15:01:00.000Z'
const sent = (id: string, entry: ReturnType<typeof found>, part = {}) =>
  item(id, 'sendEntries', { entries: [entry] }, part)

describe('the job of the crew', () => {
  it('goes on from what the server has with what waits on the device', () => {
    const answer = answerOf({ entries: [{ entry: found('entry-a', 'A'), by, keptAt }] })
    const field = foldFieldJob(answer, [sent('entry-b', found('entry-b', 'B'))])
    expect(field.entries.map(({ entry, standing }) => [entry.id, standing])).toEqual([
      ['entry-a', 'kept'],
      ['entry-b', 'waiting'],
    ])
    expect(stepsCount(field.run).done).toBe(2)
    expect(nextPlace(field.run, 'P1')?.step.id).toBe('neutral')
    expect(field.waiting).toBe(1)
  })

  it('counts an entry once that the server has and the outbox still lists', () => {
    const entry = found('entry-a', 'A')
    const answer = answerOf({ entries: [{ entry, by, keptAt }] })
    const field = foldFieldJob(answer, [sent('entry-a', entry, { state: 'kept' })])
    expect(field.entries).toHaveLength(1)
    expect(field.refused).toEqual([])
  })

  it('shows an entry that the run does not allow with why, and goes on without it', () => {
    const early = done('entry-x', { stepId: 'left', values: { tap: 0 } })
    const field = foldFieldJob(answerOf(), [
      sent('entry-x', early),
      sent('entry-a', found('entry-a', 'A')),
    ])
    expect(field.refused.map(({ entry }) => entry.id)).toEqual(['entry-x'])
    expect(field.refused[0]?.why[0]).toContain('Not yet')
    expect(field.entries.map(({ entry }) => entry.id)).toEqual(['entry-a'])
  })

  it('keeps what the server refused in view until the person sets it aside', () => {
    const answer = {
      outcomes: [{ id: 'entry-a', outcome: 'refused', why: 'The job is only drafted.' }],
    }
    const refused = sent('entry-a', found('entry-a', 'A'), { state: 'refused', answer })
    const field = foldFieldJob(answerOf(), [refused])
    expect(field.refused.map(({ why }) => why)).toEqual([['The job is only drafted.']])
    expect(stepsCount(field.run).done).toBe(0)
    const aside = foldFieldJob(answerOf(), [{ ...refused, setAsideAt: keptAt }])
    expect(aside.refused).toEqual([])
  })

  it('stands in the state of the move that waits, and in no state that cannot be moved to', () => {
    const start = item('move-1', 'moveJob', { version: 3, to: 'in the field' })
    expect(foldFieldJob(answerOf(), [start]).job.state).toBe('in the field')
    const close = item('move-2', 'moveJob', { version: 3, to: 'closed' })
    expect(foldFieldJob(answerOf(), [start, close]).job.state).toBe('in the field')
    const end = item('move-3', 'moveJob', { version: 3, to: 'work done' })
    expect(foldFieldJob(answerOf(), [start, end]).job.state).toBe('work done')
  })

  it('makes the next move on the version that an arrived move gave', () => {
    const moved = { ...answerOf().job, state: 'in the field', version: 4 }
    const start = item('move-1', 'moveJob', { version: 3, to: 'in the field' })
    const field = foldFieldJob(answerOf(), [{ ...start, state: 'kept', answer: moved }])
    expect([field.job.state, field.moveVersion]).toEqual(['in the field', 4])
  })

  it('shows as left what was entered last, be it the server’s or the device’s', () => {
    const said = { on: '2026-11-20', crew: ['Robin'], units: [], measures: [], remarks: 'first' }
    const record = {
      ...{ jobId: 'J1', feederId: 'small', version: 2, changedBy: by },
      ...{ changedAt: keptAt, deletedAt: null },
      asLeft: { ...said, signedBy: 'Robin', signaturePath: '' },
    }
    const answer = answerOf({ asLeft: record })
    expect(foldFieldJob(answer, []).asLeft?.asLeft.remarks).toBe('first')
    const own = item('left-1', 'putAsLeft', { version: 2, asLeft: { ...said, remarks: 'mine' } })
    const waiting = foldFieldJob(answer, [own]).asLeft
    expect([waiting?.asLeft.remarks, waiting?.standing]).toEqual(['mine', 'waiting'])
    const arrived = { ...own, state: 'kept' as const, answer: { version: 2 } }
    expect(foldFieldJob(answer, [arrived]).asLeft?.asLeft.remarks).toBe('first')
  })
})

describe('the answer of the server', () => {
  it('is asked for again once something arrived that it does not hold', () => {
    const arrived = sent('entry-a', found('entry-a', 'A'), {
      state: 'kept',
      answer: { outcomes: [{ id: 'entry-a', outcome: 'kept' }] },
    })
    expect(isAnswerBehind(answerOf(), [arrived])).toBe(true)
    const newer = answerOf({ entries: [{ entry: found('entry-a', 'A'), by, keptAt }] })
    expect(isAnswerBehind(newer, [arrived])).toBe(false)
    expect(isAnswerBehind(answerOf(), [sent('entry-a', found('entry-a', 'A'))])).toBe(false)
  })
})
