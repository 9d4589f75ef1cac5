import { describe, expect, it } from 'vitest'
import { siteFeeder } from '#domain/siting/site-feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import type { WorkItem } from '../../server/services/work-ports.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { hasEnded, isUnderWay, orderFor, STAMP, temporaryWork, until } from './temporary-work.ts'

const bench = temporaryWork()
const stored = () => bench.temporary.store

async function historyOf(studyId: string) {
  const entries = await stored().history.of('study', studyId)
  return entries.map(({ version, what, actorId, after }) => [version, what, actorId, after])
}

describe('work that is handed in', () => {
  it('tells how far it is and gives what the same search gives here', async () => {
    const work = await bench.open()
    const order = orderFor('small')
    await work.submit(order, STAMP)
    const seen: WorkItem[] = []
    for await (const item of work.follow(order.id)) seen.push(item)
    expect(seen.some(({ state }) => state === 'running')).toBe(true)
    const here = siteFeeder(smallFeeder({ id: 'small' }), SiteRequest.parse({}))
    expect({ status: 'done', result: seen.at(-1)?.result }).toEqual(here)
    expect(await historyOf(order.id)).toEqual([
      [1, 'added', 'pat', { state: 'queued', feederVersion: 1 }],
      [2, 'changed', 'pat', { state: 'done', feederVersion: 1 }],
    ])
  })

  it('is one item, and done once, when it is handed in twice', async () => {
    const work = await bench.open({ slots: 0 })
    const order = orderFor('small')
    const first = await work.submit(order, STAMP)
    const again = await work.submit(order, { ...STAMP, at: '2026-05-01T09:00:00.000Z' })
    expect(again).toEqual(first)
    expect(await stored().work.waiting(10)).toEqual([order.id])
    const worker = await bench.open()
    const { attempt } = await until(worker, order.id, hasEnded)
    expect(attempt).toBe(1)
    expect((await work.submit(order, STAMP)).state).toBe('done')
    expect(await historyOf(order.id)).toHaveLength(2)
  })

  it('waits in the order in which it came', async () => {
    const work = await bench.open({ slots: 0 })
    const orders = ['10', '30', '20'].map((second) => ({ second, order: orderFor('small') }))
    for (const { second, order } of orders) {
      await work.submit(order, { ...STAMP, at: `2026-05-01T08:00:${second}.000Z` })
    }
    const [first, last, middle] = orders.map(({ order }) => order.id)
    expect(await stored().work.waiting(10)).toEqual([first, middle, last])
  })
})

describe('cancelling', () => {
  it('ends what waits at once, and nobody runs it later', async () => {
    const work = await bench.open({ slots: 0 })
    const order = orderFor('small')
    await work.submit(order, STAMP)
    const who = { ...STAMP, actor: { id: 'sue', role: 'supervisor' } as const }
    expect(await work.cancel(order.id, who)).toMatchObject({
      status: 'written',
      record: { state: 'cancelled', endedAt: STAMP.at },
    })
    const worker = await bench.open()
    const next = orderFor('small')
    await worker.submit(next, STAMP)
    await until(worker, next.id, hasEnded)
    expect(await work.find(order.id)).toMatchObject({ state: 'cancelled', attempt: 0 })
    expect((await historyOf(order.id)).at(-1)).toEqual([
      2,
      'changed',
      'sue',
      { state: 'cancelled', feederVersion: 1 },
    ])
  })

  it('ends what runs, tells its followers, and frees its worker for the next', async () => {
    const worker = await bench.open()
    const elsewhere = await bench.open({ slots: 0 })
    const order = orderFor('long', 2)
    await worker.submit(order, STAMP)
    const followed = until(worker, order.id, hasEnded)
    await until(elsewhere, order.id, isUnderWay)
    await elsewhere.cancel(order.id, STAMP)
    expect((await followed).state).toBe('cancelled')
    const next = orderFor('small')
    await elsewhere.submit(next, STAMP)
    expect((await until(elsewhere, next.id, hasEnded)).state).toBe('done')
    expect((await worker.find(order.id))?.state).toBe('cancelled')
  })

  it('is refused for what has ended, and for what never was', async () => {
    const work = await bench.open()
    const order = orderFor('small')
    await work.submit(order, STAMP)
    await until(work, order.id, hasEnded)
    const late = await work.cancel(order.id, STAMP)
    expect(late).toMatchObject({ status: 'wrong-state', current: { state: 'done' } })
    expect(await work.cancel('nothing', STAMP)).toEqual({ status: 'missing' })
  })
})

describe('several studies as one work', () => {
  const manyOf = (feederIds: readonly ('small' | 'long')[]) => {
    const whole = orderFor('small')
    const parts = feederIds.map((feederId, index) => ({
      ...orderFor(feederId, feederId === 'long' ? 2 : 1),
      id: `${whole.id}.${index + 1}`,
    }))
    return { ...whole, kind: 'siting-many' as const, feederId: null, feederVersion: null, parts }
  }

  it('end with the last of them', async () => {
    const work = await bench.open()
    const order = manyOf(['small', 'small', 'small'])
    await work.submit(order, STAMP)
    const ended = await until(work, order.id, hasEnded)
    expect(ended).toMatchObject({ state: 'done', done: 3, total: 3 })
    expect(ended.result).toEqual({
      parts: order.parts.map(({ id }) => ({ workId: id, feederId: 'small', state: 'done' })),
    })
    const parts = await Promise.all(order.parts.map(({ id }) => work.find(id)))
    expect(parts.map((part) => part?.state)).toEqual(['done', 'done', 'done'])
  })

  it('are cancelled together, those that run and those that wait', async () => {
    const work = await bench.open()
    const order = manyOf(['long', 'long'])
    await work.submit(order, STAMP)
    const underWay = order.parts.map(({ id }) => until(work, id, isUnderWay))
    await Promise.race(underWay)
    await work.cancel(order.id, STAMP)
    await Promise.allSettled(underWay)
    const all = await Promise.all([order, ...order.parts].map(({ id }) => work.find(id)))
    expect(all.map((item) => item?.state)).toEqual(['cancelled', 'cancelled', 'cancelled'])
  })
})
