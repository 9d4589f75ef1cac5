import { describe, expect, it } from 'vitest'
import { hasEnded, isUnderWay, orderFor, STAMP, temporaryWork, until } from './temporary-work.ts'
import { workProcesses } from './work-process.ts'

/** Processes of their own take a while to start on a busy machine. */
const PROCESSES_MS = 180_000

const bench = temporaryWork()
const startProcess = workProcesses()

describe('stopping a worker', () => {
  it('hands its work back, and another starts it over without a breakdown being counted', {
    timeout: PROCESSES_MS,
  }, async () => {
    const first = await bench.open()
    const order = orderFor('long', 2)
    await first.submit(order, STAMP)
    await until(first, order.id, isUnderWay)
    await first.stop()
    const { work } = bench.temporary.store
    expect(await work.find(order.id)).toMatchObject({ state: 'queued', attempt: 1, done: 0 })
    for (const attempt of [2, 3, 4]) {
      const next = await bench.open()
      await until(next, order.id, (item) => isUnderWay(item) && item.attempt === attempt)
      await next.stop()
    }
    expect(await work.find(order.id)).toMatchObject({ state: 'queued', attempt: 4 })
  })

  it('ends the streams of those who follow', async () => {
    const server = await bench.open({ slots: 0 })
    const order = orderFor('small')
    await server.submit(order, STAMP)
    const followed = server.follow(order.id)[Symbol.asyncIterator]()
    expect((await followed.next()).value).toMatchObject({ state: 'queued' })
    const end = followed.next()
    await server.stop()
    expect((await end).done).toBe(true)
  })
})

describe('several processes on one database', () => {
  it('share the work, and each server follows and cancels what runs elsewhere', {
    timeout: PROCESSES_MS,
  }, async () => {
    const { options } = bench.temporary
    const programs = await Promise.all([startProcess(options), startProcess(options)])
    const server = await bench.open({ slots: 0 })
    const orders = [orderFor('long', 2), orderFor('long', 2)]
    for (const order of orders) await server.submit(order, STAMP)
    // Each process takes one at a time, so both run only where they are shared.
    await Promise.all(orders.map(({ id }) => until(server, id, isUnderWay)))
    const counts = orders.map(({ id }) => bench.temporary.store.work.find(id))
    expect((await Promise.all(counts)).map((item) => item?.state)).toEqual(['running', 'running'])
    for (const { id } of orders) await server.cancel(id, STAMP)
    const short = [orderFor('small'), orderFor('small'), orderFor('small')]
    for (const order of short) await server.submit(order, STAMP)
    const ended = await Promise.all(short.map(({ id }) => until(server, id, hasEnded)))
    expect(ended.map(({ state, attempt }) => [state, attempt])).toEqual(Array(3).fill(['done', 1]))
    expect(await Promise.all(programs.map((program) => program.stop()))).toEqual([0, 0])
  })
})
