import { beforeEach, expect, it } from 'vitest'
import { smallFeeder } from '../support/small-feeder.ts'
import { stampAt, temporaryStore } from './temporary-store.ts'

const temporary = temporaryStore()
beforeEach(async () => {
  await temporary.store.feeders.add(smallFeeder(), 'added', stampAt(0))
})

const BODY = {
  pole: 'P3',
  kind: 'perch',
  what: 'perch',
  state: 'planned',
  on: '2026-05-01',
} as const

it('counts versions and remembers each change in its order', async () => {
  const { protections } = temporary.store
  const first = await protections.add('small', 'perch-1', BODY, stampAt(1, 'robin'))
  const on = { ...BODY, state: 'on', note: 'north arm' } as const
  const second = await protections.change('small', 'perch-1', 1, on, stampAt(2, 'sam'))
  const third = await protections.delete('small', 'perch-1', 2, stampAt(3, 'kim'))
  const fourth = await protections.restore('small', 'perch-1', 3, stampAt(4, 'lee'))
  const records = [second, third, fourth].map((write) => {
    if (write.status !== 'written') throw new Error(`Expected a write, got ${write.status}.`)
    return write.record
  })
  expect(records.map(({ version, deletedAt }) => [version, deletedAt])).toEqual([
    [2, null],
    [3, stampAt(3).at],
    [4, null],
  ])
  const reopened = await temporary.reopen()
  const changes = await reopened.history.of('protection', 'perch-1', 'small')
  expect(changes.map(({ actorId, at }) => [actorId, at])).toEqual([
    ['robin', stampAt(1).at],
    ['sam', stampAt(2).at],
    ['kim', stampAt(3).at],
    ['lee', stampAt(4).at],
  ])
  expect(changes.map(({ what }) => what)).toEqual(['added', 'changed', 'deleted', 'restored'])
  expect(changes.map(({ after }) => after)).toEqual([first, ...records])
  expect(changes.map(({ before }) => before)).toEqual([null, first, ...records.slice(0, 2)])
})

it('lets only one of two changes of the same version through', async () => {
  const { history, protections } = temporary.store
  await protections.add('small', 'perch-1', BODY, stampAt(1))
  const attempts = ['left', 'right'].map((what) =>
    protections.change('small', 'perch-1', 1, { ...BODY, what }, stampAt(2)),
  )
  const statuses = (await Promise.all(attempts)).map(({ status }) => status)
  expect(statuses.sort()).toEqual(['stale', 'written'])
  expect(await history.of('protection', 'perch-1')).toHaveLength(2)
})

it('drops a note that is taken away', async () => {
  const { protections } = temporary.store
  await protections.add('small', 'perch-1', { ...BODY, note: 'loose' }, stampAt(1))
  await protections.change('small', 'perch-1', 1, BODY, stampAt(2))
  const listed = await protections.list('small')
  expect(listed.find(({ id }) => id === 'perch-1')).not.toHaveProperty('note')
})

it('does not bring back a deleted item with the next layers', async () => {
  const { protections, feeders } = temporary.store
  await protections.delete('small', 'cover-1', 1, stampAt(1))
  await feeders.add(smallFeeder(), 'added', stampAt(2))
  expect(await protections.list('small')).toEqual([])
})

it('does not bring back a purged item with the next layers either', async () => {
  const { protections, feeders } = temporary.store
  await protections.delete('small', 'cover-1', 1, stampAt(1))
  await protections.purge('small', 'cover-1', 2, 'entered by mistake', stampAt(2))
  await feeders.add(smallFeeder(), 'added', stampAt(3))
  expect(await protections.list('small')).toEqual([])
  expect(await protections.listDeleted('small')).toEqual([])
})

it('purges only what is deleted, and remembers why', async () => {
  const { history, protections } = temporary.store
  const standing = await protections.purge('small', 'cover-1', 1, 'mistake', stampAt(1))
  expect(standing.status).toBe('wrong-state')
  await protections.delete('small', 'cover-1', 1, stampAt(2, 'kim'))
  expect(await protections.listDeleted('small')).toEqual([
    {
      subject: 'protection',
      feederId: 'small',
      subjectId: 'cover-1',
      what: 'bushing cover on pole P2',
      version: 2,
      deletedAt: stampAt(2).at,
      deletedBy: 'kim',
    },
  ])
  expect((await protections.purge('small', 'cover-1', 1, 'mistake', stampAt(3))).status).toBe(
    'stale',
  )
  await protections.purge('small', 'cover-1', 2, 'entered by mistake', stampAt(3, 'ash'))
  expect(await protections.purge('small', 'cover-1', 3, 'again', stampAt(4))).toEqual({
    status: 'missing',
  })
  const [last] = (await history.of('protection', 'cover-1')).slice(-1)
  expect(last).toMatchObject({
    what: 'purged',
    version: 3,
    reason: 'entered by mistake',
    actorId: 'ash',
    before: { what: 'bushing cover', deletedAt: stampAt(2).at },
    after: null,
  })
})

it('keeps items of the same id on two feeders apart', async () => {
  const { protections, feeders } = temporary.store
  await feeders.add(smallFeeder({ id: 'twin' }), 'added', stampAt(1))
  await protections.delete('twin', 'cover-1', 1, stampAt(2))
  expect((await protections.list('small')).map(({ id }) => id)).toEqual(['cover-1'])
  expect(await protections.list('twin')).toEqual([])
})

it('says what stands where a change cannot be', async () => {
  const { protections } = temporary.store
  expect(await protections.restore('small', 'nobody', 1, stampAt(1))).toEqual({ status: 'missing' })
  expect(await protections.restore('small', 'cover-1', 1, stampAt(1))).toMatchObject({
    status: 'wrong-state',
    current: { id: 'cover-1', version: 1 },
  })
})
