import { randomUUID } from 'node:crypto'
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { hasEnded } from '#contract/work.ts'
import type { HistoryEntry } from '../../server/services/ports.ts'
import { workKinds } from '../../server/services/work-kinds.ts'
import type { WorkKinds, WorkOrder } from '../../server/services/work-ports.ts'
import { STAMP, temporaryWork } from './temporary-work.ts'

const { temporary, open, kinds, faults } = temporaryWork()

const order = (): WorkOrder => ({
  id: randomUUID(),
  kind: 'history-report',
  feederId: null,
  feederVersion: null,
  payload: { as: 'json-lines' },
})

/** How reports are really made, from a history that stops before its last entry until it may go on. */
function slowKinds(atLast: () => Promise<void>): WorkKinds {
  const { store } = temporary
  async function* all(): AsyncGenerator<HistoryEntry> {
    for await (const entry of store.history.all()) {
      if (entry.seq === 2) await atLast()
      yield entry
    }
  }
  const slow = { ...store, history: { ...store.history, all } }
  const clock = () => STAMP.at
  return {
    ...kinds(),
    'history-report': workKinds({ store: slow, threads, clock })['history-report'],
  }
}

const threads = {
  site: () => Promise.reject(new Error('no report sites anything')),
  readLayers: () => Promise.reject(new Error('no report reads layers')),
  solve: () => Promise.reject(new Error('no report solves anything')),
  draft: () => Promise.reject(new Error('no report drafts anything')),
  build: () => Promise.reject(new Error('no report builds anything')),
}

async function endOf(work: Awaited<ReturnType<typeof open>>, id: string) {
  for await (const item of work.follow(id)) if (hasEnded(item.state)) return item
  throw new Error(`The work ${id} never ended.`)
}

const filesKept = () => readdir(join(temporary.store.dataFolder, 'reports'))

it('keeps one file of a report whose worker broke down in the middle, and no half of one', async () => {
  let breakdowns = 0
  const work = await open({
    kinds: slowKinds(async () => {
      breakdowns++
      if (breakdowns === 1) throw new Error('the disk went away for a moment')
    }),
  })
  const { id } = await work.submit(order(), STAMP)
  const item = await endOf(work, id)
  expect(item).toMatchObject({ state: 'done', attempt: 2 })
  expect(faults).toHaveLength(1)
  expect(await filesKept()).toEqual([id])
  const entries = (item.result as { entries: number }).entries
  expect(entries).toBeGreaterThanOrEqual(3)
  const file = await temporary.store.reports.open(id)
  const text = await new Response(file?.content).text()
  expect(text.trimEnd().split('\n')).toHaveLength(entries)
})

it('keeps no file of a report that was cancelled in the middle', async () => {
  let go: () => void = () => undefined
  const waiting = new Promise<void>((resolve) => {
    go = resolve
  })
  let reached: () => void = () => undefined
  const isReached = new Promise<void>((resolve) => {
    reached = resolve
  })
  const work = await open({
    kinds: slowKinds(() => {
      reached()
      return waiting
    }),
  })
  const { id } = await work.submit(order(), STAMP)
  await isReached
  expect((await work.cancel(id, STAMP)).status).toBe('written')
  go()
  await work.stop()
  expect(await work.find(id)).toMatchObject({ state: 'cancelled' })
  expect(await filesKept()).toEqual([])
  expect(faults).toEqual([])
})
