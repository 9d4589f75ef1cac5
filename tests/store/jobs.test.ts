import { sql } from 'kysely'
import { beforeEach, describe, expect, it } from 'vitest'
import { JobHead } from '#contract/jobs.ts'
import type { NewJob } from '../../server/services/job-ports.ts'
import type { Written } from '../../server/services/ports.ts'
import { verifyRecord } from '../../server/store/verify-record.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { LEFT_AFTER_LOOK, LOOK_SEQUENCE, lookPlan, stepDone } from '../support/small-job.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
beforeEach(async () => {
  const { feeders, jobs } = temporary.store
  await feeders.add(smallFeeder(), 'added', stampAt(0))
  await jobs.add(newJob('j1'), stampAt(1))
})

function newJob(id: string, head: Partial<JobHead> = {}, feederId = 'small'): NewJob {
  return {
    id,
    feederId,
    feederVersion: 1,
    head: JobHead.parse({ title: 'Look at the creek', crew: 'north truck', ...head }),
    origin: { kind: 'by hand', jobKind: 'inspection', poles: ['P2', 'P3'] },
    plan: lookPlan(),
    stepsAll: 4,
  }
}

function recordOf<Kept>(written: Written<Kept>): Kept {
  if (written.status === 'written') return written.record
  throw new Error(`Expected a write, got ${written.status}.`)
}

const ENTRIES = [stepDone('e1', 'P2', 'briefing', 1), stepDone('e2', 'P2', 'look', 2)]
const J1 = { id: 'j1', feederId: 'small' }

describe('a job', () => {
  it('is kept with its plan, drafted, and read back whole', async () => {
    const reopened = await temporary.reopen()
    expect(await reopened.jobs.find('j1')).toEqual({
      id: 'j1',
      feederId: 'small',
      title: 'Look at the creek',
      note: '',
      crew: 'north truck',
      state: 'drafted',
      stateSince: stampAt(1).at,
      reason: '',
      feederVersion: 1,
      feederVersionAfter: null,
      origin: newJob('j1').origin,
      plan: lookPlan(),
      version: 1,
      changedBy: stampAt(1).actor,
      changedAt: stampAt(1).at,
      deletedAt: null,
    })
  })

  it('counts versions, and refuses one that is not the newest with what stands', async () => {
    const { jobs } = temporary.store
    const head = JobHead.parse({ title: 'Look at the bridge', dueOn: '2026-06-01' })
    const changed = recordOf(await jobs.change('j1', 1, head, stampAt(2)))
    expect(changed).toMatchObject({ ...head, version: 2, state: 'drafted' })
    const moved = { state: 'approved', reason: '', feederVersionAfter: null } as const
    expect(await jobs.move('j1', 1, moved, stampAt(3))).toEqual({
      status: 'stale',
      current: changed,
    })
    const approved = recordOf(await jobs.move('j1', 2, moved, stampAt(4)))
    expect(approved).toMatchObject({ state: 'approved', stateSince: stampAt(4).at, version: 3 })
    const again = recordOf(await jobs.change('j1', 3, JobHead.parse({ title: 'x' }), stampAt(5)))
    expect(again).not.toHaveProperty('dueOn')
    expect(again.stateSince).toBe(stampAt(4).at)
    expect(await jobs.change('none', 1, head, stampAt(6))).toEqual({ status: 'missing' })
  })

  it('is remembered without its plan, which is held by its hash', async () => {
    const { history, database } = temporary.store
    const [entry] = await history.of('job', 'j1', 'small')
    expect(entry?.after).toMatchObject({ kind: 'inspection', poles: ['P2', 'P3'], version: 1 })
    expect(entry?.after).not.toHaveProperty('plan')
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
    const plan = JSON.stringify(lookPlan(['P4']))
    await database.plain.updateTable('jobs').set({ plan }).execute()
    expect((await verifyRecord(temporary.options)).rows).toEqual([
      'The job j1 of feeder small is not as the history left it.',
    ])
  })

  it('stands in the list by the day it is due, with how many entries it has', async () => {
    const { jobs, feeders } = temporary.store
    await feeders.add(smallFeeder({ id: 'twin' }), 'added', stampAt(1))
    await jobs.add(newJob('j2', { dueOn: '2026-07-01' }), stampAt(2))
    await jobs.add(newJob('j3', { dueOn: '2026-06-01' }, 'twin'), stampAt(2))
    await jobs.addEntries(J1, ENTRIES, stampAt(3))
    const all = await jobs.list()
    expect(all.map(({ id, entries }) => [id, entries])).toEqual([
      ['j3', 0],
      ['j2', 0],
      ['j1', 2],
    ])
    expect(all[2]).toMatchObject({ kind: 'inspection', poles: ['P2', 'P3'], crew: 'north truck' })
    expect(all[2]).not.toHaveProperty('plan')
    expect((await jobs.list('small')).map(({ id }) => id)).toEqual(['j2', 'j1'])
  })

  it('is deleted, restored and purged with its history', async () => {
    const { jobs, history } = temporary.store
    await jobs.delete('j1', 1, stampAt(2, 'kim'))
    expect(await jobs.list()).toEqual([])
    expect(await jobs.listDeleted('small')).toMatchObject([
      { subject: 'job', subjectId: 'j1', what: 'Look at the creek', deletedBy: 'kim' },
    ])
    recordOf(await jobs.restore('j1', 2, stampAt(3)))
    await jobs.delete('j1', 3, stampAt(4))
    recordOf(await jobs.purge('small', 'j1', 4, 'drawn up for the wrong feeder', stampAt(5)))
    expect(await jobs.find('j1')).toBeNull()
    const told = await history.of('job', 'j1')
    expect(told.map(({ what }) => what)).toEqual([
      'added',
      'deleted',
      'restored',
      'deleted',
      'purged',
    ])
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
  })
})

describe('what was entered in the field', () => {
  it('is kept in the order of sending, with who sent it and both times', async () => {
    const { jobs, history } = temporary.store
    await jobs.addEntries(J1, ENTRIES.slice(0, 1), stampAt(2, 'kim'))
    await jobs.addEntries(J1, ENTRIES.slice(1), stampAt(3, 'lee'))
    const kept = await jobs.entries('j1')
    expect(kept.map(({ entry, by, keptAt }) => [entry, by.id, keptAt])).toEqual([
      [ENTRIES[0], 'kim', stampAt(2).at],
      [ENTRIES[1], 'lee', stampAt(3).at],
    ])
    const told = await history.of('job-entry', 'j1', 'small')
    expect(
      told.map(({ version, what, after, at, deviceAt }) => [version, what, after, at, deviceAt]),
    ).toEqual([
      [1, 'added', ENTRIES[0], stampAt(2).at, ENTRIES[0]?.at],
      [2, 'added', ENTRIES[1], stampAt(3).at, ENTRIES[1]?.at],
    ])
    expect((await jobs.find('j1'))?.version).toBe(1)
  })

  it('is kept once under one id, and of two that come at the same time nothing is lost', async () => {
    const { jobs } = temporary.store
    await jobs.addEntries(J1, ENTRIES, stampAt(2))
    await expect(jobs.addEntries(J1, ENTRIES, stampAt(3))).rejects.toThrow(/unique|only added/i)
    const more = ['e3', 'e4', 'e5'].map((id) => stepDone(id, 'P3', 'look'))
    await Promise.all(more.map((entry) => jobs.addEntries(J1, [entry], stampAt(4))))
    const ids = (await jobs.entries('j1')).map(({ entry }) => entry.id)
    expect(ids.slice(0, 2)).toEqual(['e1', 'e2'])
    expect(ids.slice(2).sort()).toEqual(['e3', 'e4', 'e5'])
  })

  const statements = [
    "update job_entries set actor_id = 'mallory'",
    'delete from job_entries',
    ...(TESTED_KIND === 'PostgreSQL'
      ? ['truncate job_entries']
      : [
          `insert or replace into job_entries select job_id, position, id, '{}', device_at,
           actor_id, actor_role, kept_at from job_entries where position = 1`,
          `insert or replace into job_entries select job_id, 9, id, '{}', device_at,
           actor_id, actor_role, kept_at from job_entries where position = 1`,
        ]),
  ]
  it.each(statements)('cannot be changed or taken out by: %s', async (text) => {
    const { jobs, database } = temporary.store
    await jobs.addEntries(J1, ENTRIES, stampAt(2))
    const kept = await jobs.entries('j1')
    await expect(sql.raw(text).execute(database.plain)).rejects.toThrow(
      'entries of a job are only added to',
    )
    expect(await jobs.entries('j1')).toEqual(kept)
  })

  it('is held against the history where somebody took the rule away', async () => {
    const { jobs, database } = temporary.store
    await jobs.addEntries(J1, [...ENTRIES, stepDone('e3', 'P3', 'look', 3)], stampAt(2))
    const withoutRule =
      TESTED_KIND === 'PostgreSQL'
        ? ['drop trigger job_entries_no_change on job_entries']
        : ['drop trigger job_entries_no_update', 'drop trigger job_entries_no_delete']
    const changes = [
      "update job_entries set entry = '{}' where position = 1",
      "update job_entries set actor_id = 'mallory' where position = 2",
      'delete from job_entries where position = 3',
    ]
    for (const text of [...withoutRule, ...changes]) await sql.raw(text).execute(database.plain)
    expect((await verifyRecord(temporary.options)).rows).toEqual([
      'Entry 1 of job j1 is not as the history left it.',
      'Entry 2 of job j1 is not as the history left it.',
      'Entry 3 of job j1 is missing.',
    ])
  })
})

describe('what was left at the poles', () => {
  it('is put once by whoever saw none, and then by the version, with its history', async () => {
    const { asLeft, history } = temporary.store
    expect(await asLeft.find('j1')).toBeNull()
    const stamp = { ...stampAt(2), deviceAt: '2026-04-30T10:00:00.000Z' }
    const first = recordOf(await asLeft.put(J1, 0, LEFT_AFTER_LOOK, stamp))
    expect(first).toMatchObject({ jobId: 'j1', asLeft: LEFT_AFTER_LOOK, version: 1 })
    const other = { ...LEFT_AFTER_LOOK, remarks: 'P3 leans.' }
    expect(await asLeft.put(J1, 0, other, stampAt(3))).toEqual({ status: 'stale', current: first })
    expect(recordOf(await asLeft.put(J1, 1, other, stampAt(4))).version).toBe(2)
    const told = await history.of('as-left', 'j1', 'small')
    expect(told.map(({ what, deviceAt }) => [what, deviceAt])).toEqual([
      ['added', stamp.deviceAt],
      ['changed', null],
    ])
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
  })
})

describe('an order of steps', () => {
  it('is the utility’s, of no feeder, and has versions and a history', async () => {
    const { stepSequences, history } = temporary.store
    expect(await stepSequences.list()).toEqual([])
    recordOf(await stepSequences.put(0, LOOK_SEQUENCE, stampAt(2)))
    const renamed = { ...LOOK_SEQUENCE, name: 'Look twice' }
    expect(await stepSequences.put(0, renamed, stampAt(3))).toMatchObject({ status: 'stale' })
    const second = recordOf(await stepSequences.put(1, renamed, stampAt(4)))
    expect(await stepSequences.list()).toEqual([second])
    expect(second).toEqual({
      sequence: renamed,
      version: 2,
      changedBy: stampAt(4).actor,
      changedAt: stampAt(4).at,
    })
    const told = await history.of('step-sequence', 'look')
    expect(told.map(({ feederId, version }) => [feederId, version])).toEqual([
      [null, 1],
      [null, 2],
    ])
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
  })

  it('is withdrawn by the version that was seen, and may be set again by who saw none', async () => {
    const { stepSequences, history } = temporary.store
    const first = recordOf(await stepSequences.put(0, LOOK_SEQUENCE, stampAt(2)))
    const stale = await stepSequences.delete('look', 2, stampAt(3))
    expect(stale).toEqual({ status: 'stale', current: first })
    expect((await stepSequences.delete('look', 1, stampAt(4))).status).toBe('written')
    expect(await stepSequences.list()).toEqual([])
    expect((await stepSequences.delete('look', 2, stampAt(5))).status).toBe('wrong-state')
    expect((await stepSequences.delete('gone', 1, stampAt(5))).status).toBe('missing')
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
    const again = recordOf(await stepSequences.put(0, LOOK_SEQUENCE, stampAt(6)))
    expect(again.version).toBe(3)
    expect(await stepSequences.list()).toEqual([again])
    const told = await history.of('step-sequence', 'look')
    expect(told.map(({ what, version }) => [what, version])).toEqual([
      ['added', 1],
      ['deleted', 2],
      ['restored', 3],
    ])
    expect((await verifyRecord(temporary.options)).rows).toEqual([])
  })
})
