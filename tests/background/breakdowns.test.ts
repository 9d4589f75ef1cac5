import { describe, expect, it } from 'vitest'
import type { RunWork } from '../../server/services/work-ports.ts'
import { hasEnded, orderFor, STAMP, temporaryWork, until } from './temporary-work.ts'
import { workProcesses } from './work-process.ts'

/** Processes of their own take a while to start on a busy machine. */
const PROCESSES_MS = 180_000

const bench = temporaryWork()
const startProcess = workProcesses()
const store = () => bench.temporary.store

/** So short that a test need not wait long; a worker beats every second. */
const PATIENCE_MS = 2500

/** Does the real work, but breaks so many times before. */
function breaksFirst(times: number): RunWork {
  const { siting } = bench.kinds()
  let left = times
  return (item, follow) => {
    if (left-- > 0) throw new Error('the thread died')
    return siting(item, follow)
  }
}

describe('a breakdown of the machinery', () => {
  it('has the work tried again', async () => {
    const work = await bench.open({ kinds: { ...bench.kinds(), siting: breaksFirst(2) } })
    const order = orderFor('small')
    await work.submit(order, STAMP)
    expect(await until(work, order.id, hasEnded)).toMatchObject({ state: 'done', attempt: 3 })
    expect(bench.faults.map(String)).toEqual(Array(2).fill('Error: the thread died'))
  })

  it('for the third time fails the work with the reason', async () => {
    const work = await bench.open({ kinds: { ...bench.kinds(), siting: breaksFirst(3) } })
    const order = orderFor('small')
    await work.submit(order, STAMP)
    const ended = await until(work, order.id, hasEnded)
    expect(ended).toMatchObject({ state: 'failed', problem: { code: 'internal' } })
    expect(ended.problem?.detail).toContain('the thread died')
    expect(await store().history.of('study', order.id)).toHaveLength(2)
  })
})

describe('a worker that is killed', () => {
  it('has its work done by another, whatever the clocks say', {
    timeout: PROCESSES_MS,
  }, async () => {
    const program = await startProcess(bench.temporary.options)
    const server = await bench.open({ slots: 0 })
    const order = orderFor('middling', 2)
    await server.submit(order, STAMP)
    await until(server, order.id, ({ state }) => state === 'running')
    await program.kill()
    const clock = () => '2001-01-01T00:00:00.000Z'
    await bench.open({ patienceMs: PATIENCE_MS, clock })
    const ended = await until(server, order.id, hasEnded)
    expect(ended).toMatchObject({ state: 'done', attempt: 2, endedAt: clock() })
    expect(await store().history.of('study', order.id)).toHaveLength(2)
  })
})

describe('a worker that was taken for lost and comes back', () => {
  it('keeps nothing: one result is kept, that of the worker that holds the work', async () => {
    let comeBack: () => void = () => undefined
    const away = new Promise<void>((resolve) => {
      comeBack = resolve
    })
    let finished: () => void = () => undefined
    const isFinished = new Promise<void>((resolve) => {
      finished = resolve
    })
    const kept: string[] = []
    const resultOf = (worker: string, before: () => Promise<void>): RunWork => {
      return async () => {
        await before()
        const keep = async () => {
          kept.push(worker)
          return worker
        }
        return { state: 'done', keep }
      }
    }
    // The first one cannot reach the database while it works.
    const unreachable = {
      ...store().work,
      beat: () => Promise.reject(new Error('no connection')),
      end: async (...held: Parameters<ReturnType<typeof store>['work']['end']>) => {
        const ended = await store().work.end(...held)
        finished()
        return ended
      },
    }
    const lost = await bench.open({
      store: unreachable,
      kinds: { ...bench.kinds(), siting: resultOf('first', () => away) },
    })
    const order = orderFor('small')
    await lost.submit(order, STAMP)
    await until(lost, order.id, ({ state }) => state === 'running')
    const second = await bench.open({
      patienceMs: PATIENCE_MS,
      kinds: { ...bench.kinds(), siting: resultOf('second', async () => undefined) },
    })
    expect(await until(second, order.id, hasEnded)).toMatchObject({ result: 'second', attempt: 2 })
    comeBack()
    await isFinished
    expect(kept).toEqual(['second'])
    expect(await second.find(order.id)).toMatchObject({ state: 'done', result: 'second' })
    expect(await store().history.of('study', order.id)).toHaveLength(2)
  })
})
