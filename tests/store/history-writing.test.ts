import { sql } from 'kysely'
import { beforeEach, describe, expect, it } from 'vitest'
import type { HistoryEntry } from '../../server/services/ports.ts'
import { appendHistory } from '../../server/store/history.ts'
import { checkChain } from '../../server/store/history-chain.ts'
import { TESTED_KIND } from '../support/fresh-database.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
beforeEach(async () => {
  await temporary.store.feeders.add(smallFeeder(), 'added', stampAt(1))
})

const NOTE = { subject: 'study', feederId: null, subjectId: 's1', version: 1 } as const

function append(second: number, version: number, after: unknown = {}) {
  const { database } = temporary.store
  return database.transaction((transaction) =>
    appendHistory(transaction, { ...NOTE, version, before: null, after }, stampAt(second)),
  )
}

describe('the history on the database itself', () => {
  const statements = [
    'update history set actor_id = 1',
    'delete from history',
    ...(TESTED_KIND === 'PostgreSQL'
      ? ['truncate history']
      : [
          'insert or replace into history select * from history where seq = 1',
          `insert or replace into history select 99, subject, feeder_id, subject_id, version, what,
           at, device_at, 'mallory', actor_role, reason, before, after, previous_hash, hash
           from history where seq = 1`,
        ]),
  ]
  it.each(statements)('refuses: %s', async (text) => {
    const { database, history } = temporary.store
    await expect(sql.raw(text).execute(database.plain)).rejects.toThrow('history is only added to')
    const entries = await history.after(0, 10)
    expect(entries.map(({ actorId }) => actorId)).toEqual(['robin', 'robin'])
  })

  it('refuses a second entry of the same version, and keeps nothing of that change', async () => {
    await append(2, 1)
    await expect(append(3, 1)).rejects.toThrow(/unique|only added to/i)
    expect(await temporary.store.history.newestSeq()).toBe(3)
  })
})

describe('an entry', () => {
  it('holds who, when on the server and on the device, what before and after', async () => {
    const { database, history } = temporary.store
    const stamp = { ...stampAt(9, 'sam'), deviceAt: '2026-04-30T10:00:00.000Z' }
    await database.transaction((transaction) =>
      appendHistory(transaction, { ...NOTE, before: null, after: { state: 'done' } }, stamp),
    )
    expect(await history.of('study', 's1')).toEqual([
      {
        ...NOTE,
        seq: 3,
        what: 'added',
        at: stampAt(9).at,
        deviceAt: '2026-04-30T10:00:00.000Z',
        actorId: 'sam',
        actorRole: 'coordinator',
        reason: null,
        before: null,
        after: { state: 'done' },
        previousHash: expect.stringMatching(/^[0-9a-f]{64}$/),
        hash: expect.stringMatching(/^[0-9a-f]{64}$/),
      },
    ])
  })

  it('is numbered in the order of writing when the clock is set back', async () => {
    await append(50, 1)
    await append(10, 2)
    await append(30, 3)
    const { history } = temporary.store
    const seconds = (await history.of('study', 's1')).map(({ at }) => at)
    expect(seconds).toEqual([50, 10, 30].map((second) => stampAt(second).at))
    const { entries, fault } = await checkChain(history.all())
    expect({ entries, fault }).toEqual({ entries: 5, fault: null })
  })

  it('leaves no gap where a change is given up', async () => {
    const { database, history } = temporary.store
    const giveUp = database.transaction(async (transaction) => {
      await appendHistory(transaction, { ...NOTE, before: null, after: {} }, stampAt(2))
      throw new Error('changed my mind')
    })
    await expect(giveUp).rejects.toThrow('changed my mind')
    await append(3, 1)
    expect((await history.after(0, 10)).map(({ seq }) => seq)).toEqual([1, 2, 3])
  })

  it('is only written in a transaction that waited for its turn', async () => {
    const { database } = temporary.store
    const unasked = database.plain
      .transaction()
      .execute((transaction) =>
        appendHistory(transaction, { ...NOTE, before: null, after: {} }, stampAt(2)),
      )
    await expect(unasked).rejects.toThrow('Database.transaction')
  })
})

describe('those who listen', () => {
  it('are told of each change once it is kept, and of none that was given up', async () => {
    const { database, history } = temporary.store
    const heard: HistoryEntry[] = []
    const stop = database.onChange((entry) => heard.push(entry))
    await append(2, 1)
    await expect(append(3, 1)).rejects.toThrow()
    await append(4, 2)
    expect(heard).toEqual(await history.of('study', 's1'))
    stop()
    await append(5, 3)
    expect(heard).toHaveLength(2)
  })
})

describe('reading', () => {
  it('goes on after any number, and of one feeder or subject where that is asked for', async () => {
    await temporary.store.feeders.add(smallFeeder({ id: 'twin' }), 'added', stampAt(2))
    await append(3, 1)
    const { history } = temporary.store
    expect((await history.after(3, 1)).map(({ seq }) => seq)).toEqual([4])
    const seqs = async (filter: Parameters<typeof history.all>[0]) => {
      const found: number[] = []
      for await (const { seq } of history.all(filter)) found.push(seq)
      return found
    }
    expect(await seqs({ feederId: 'twin' })).toEqual([3, 4])
    expect(await seqs({ subject: 'protection' })).toEqual([2, 4])
    expect(await seqs({ subject: 'protection', feederId: 'small' })).toEqual([2])
    expect(await seqs({})).toEqual([1, 2, 3, 4, 5])
  })

  it('tells changes of one id on two feeders apart', async () => {
    await temporary.store.feeders.add(smallFeeder({ id: 'twin' }), 'added', stampAt(2))
    const { history } = temporary.store
    expect(await history.of('protection', 'cover-1')).toHaveLength(2)
    const [one, ...others] = await history.of('protection', 'cover-1', 'twin')
    expect([one?.feederId, others]).toEqual(['twin', []])
  })
})
