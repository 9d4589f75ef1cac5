import { randomUUID } from 'node:crypto'
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { type OpenWork, openWork, type WorkOptions } from '../../server/background/open-work.ts'
import { type OpenThreads, openThreads } from '../../server/background/threads.ts'
import type { Stamp } from '../../server/services/ports.ts'
import { workKinds } from '../../server/services/work-kinds.ts'
import type { WorkItem, WorkKinds, WorkOrder } from '../../server/services/work-ports.ts'
import { type TemporaryStore, temporaryStore } from '../store/temporary-store.ts'
import { smallFeeder } from '../support/small-feeder.ts'

export const workerFile = (name: string) =>
  new URL(`../../server/background/${name}.ts`, import.meta.url)
export const STAMP: Stamp = {
  at: '2026-05-01T08:00:00.000Z',
  actor: { id: 'pat', role: 'planner' },
}

/** Two banks on so many poles take long enough to be cancelled or killed in the middle. */
const LONG_POLES = 260

/** Long enough to be killed in the middle, short enough to be done again. */
const MIDDLING_POLES = 24

export type FeederId = 'small' | 'middling' | 'long'

export interface TemporaryWork {
  readonly temporary: TemporaryStore
  /** Faults that were reported, of all that was opened. */
  readonly faults: unknown[]
  /** Opens one more taker of work on the store; it is stopped after the test. */
  open(options?: Partial<WorkOptions>): Promise<OpenWork>
  /** How work is really done. */
  kinds(): WorkKinds
}

/** Stores with three feeders, and takers of work on them, for each test of the calling file. */
export function temporaryWork(): TemporaryWork {
  const temporary = temporaryStore()
  const faults: unknown[] = []
  let opened: OpenWork[] = []
  let threads: OpenThreads
  const clock = () => new Date().toISOString()
  const kinds = () => workKinds({ store: temporary.store, threads, clock })
  beforeAll(() => {
    threads = openThreads(workerFile, 2)
  })
  afterAll(() => threads.close())
  beforeEach(async () => {
    faults.length = 0
    const { feeders } = temporary.store
    await feeders.add(smallFeeder({ id: 'small' }), 'added', STAMP)
    await feeders.add(smallFeeder({ id: 'middling', poles: MIDDLING_POLES }), 'added', STAMP)
    await feeders.add(smallFeeder({ id: 'long', poles: LONG_POLES }), 'added', STAMP)
  })
  afterEach(async () => {
    for (const work of opened) await work.stop()
    opened = []
  })
  return {
    temporary,
    faults,
    kinds,
    open: async (options = {}) => {
      const { databaseUrl } = temporary.options
      const work = await openWork({
        store: temporary.store.work,
        kinds: kinds(),
        clock,
        reportFault: (fault) => faults.push(fault),
        slots: 1,
        ...(databaseUrl && { databaseUrl }),
        ...options,
      })
      opened.push(work)
      return work
    },
  }
}

export function orderFor(feederId: FeederId, banks: 1 | 2 = 1): WorkOrder {
  const payload = SiteRequest.parse({ banks })
  return { id: randomUUID(), kind: 'siting', feederId, feederVersion: 1, payload }
}

/** The item once it is as wanted; an end that is not fails. */
export async function until(
  work: Pick<OpenWork, 'follow'>,
  id: string,
  isWanted: (item: WorkItem) => boolean,
): Promise<WorkItem> {
  let last: WorkItem | null = null
  for await (const item of work.follow(id)) {
    if (isWanted(item)) return item
    last = item
  }
  throw new Error(`Expected something else of the work than ${JSON.stringify(last)}.`)
}

export const isUnderWay = ({ state, total }: WorkItem) => state === 'running' && total > 0
export const hasEnded = ({ endedAt }: WorkItem) => endedAt !== null
