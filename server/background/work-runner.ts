import { randomUUID } from 'node:crypto'
import { hostname } from 'node:os'
import { setTimeout as sleep } from 'node:timers/promises'
import type { Clock } from '../services/ports.ts'
import type {
  ClaimedWork,
  HeldWork,
  RunWork,
  WorkKinds,
  WorkStore,
} from '../services/work-ports.ts'
import type { LiveWork } from './live-work.ts'
import { Pulse } from './pulse.ts'

/** An end is worth some waiting for a database that was away. */
const TRIES_TO_KEEP = 6
const BETWEEN_TRIES_MS = 1000

const STOPPING = 'the process stops'
const LOST = 'the item is another’s or has ended'

interface RunnerOptions {
  readonly store: WorkStore
  readonly kinds: WorkKinds
  readonly live: LiveWork
  readonly clock: Clock
  readonly reportFault: (fault: unknown) => void
}

interface Running {
  readonly attempt: number
  readonly leaveOff: AbortController
  readonly pulse: Pulse
}

/** Runs items to their end, each only as long as its row says that it is this runner's. */
export class WorkRunner {
  readonly #options: RunnerOptions
  readonly #running = new Map<string, Running>()
  #isStopping = false
  readonly #holder = `${hostname()} ${process.pid} ${randomUUID()}`

  constructor(options: RunnerOptions) {
    this.#options = options
  }

  holds({ id, attempt }: HeldWork): boolean {
    return this.#running.get(id)?.attempt === attempt
  }

  /** Somebody changed the row: it may be cancelled or given to another. */
  look(workId: string): void {
    this.#running.get(workId)?.pulse.look()
  }

  /** Has all that runs handed back. */
  leaveOff(): void {
    this.#isStopping = true
    for (const { leaveOff } of this.#running.values()) leaveOff.abort(STOPPING)
  }

  /** @param onClaim called once the row says whose the item is, be it another's */
  async run(workId: string, onClaim: () => Promise<void>): Promise<void> {
    const { store, live, reportFault } = this.#options
    const item = await store.claim(workId, this.#holder)
    await onClaim().catch(reportFault)
    if (!item) return
    const leaveOff = new AbortController()
    const onLost = () => leaveOff.abort(LOST)
    const pulse = new Pulse({ store, held: item, onLost, reportFault })
    this.#running.set(item.id, { attempt: item.attempt, leaveOff, pulse })
    if (this.#isStopping) leaveOff.abort(STOPPING)
    try {
      await this.#seeThrough(item, pulse, leaveOff.signal)
    } catch (fault) {
      // Nothing could be written: whoever finds that this worker is silent starts it over.
      reportFault(fault)
    } finally {
      pulse.stop()
      this.#running.delete(item.id)
      live.letGo(item.id)
    }
  }

  async #seeThrough(item: ClaimedWork, pulse: Pulse, signal: AbortSignal): Promise<void> {
    const { store, live, clock, reportFault } = this.#options
    const tell = (done: number, total: number, phase: string) => {
      pulse.progress = { done, total, phase }
      live.told(item.id, pulse.progress)
    }
    try {
      const ending = await this.#kindOf(item)(item, { tell, signal })
      if (!signal.aborted) {
        await insist(() => store.end(item, { ...ending, ...pulse.progress }, clock()))
      }
    } catch (fault) {
      if (!signal.aborted) {
        reportFault(fault)
        await insist(() => store.breakDown(item, problemOf(fault), clock()))
      }
    }
    if (signal.reason === STOPPING) await insist(() => store.handBack(item))
  }

  #kindOf({ kind }: ClaimedWork): RunWork {
    const run = (this.#options.kinds as Partial<Record<string, RunWork>>)[kind]
    if (run) return run
    throw new Error(`Expected a kind of work that this program knows, got "${kind}".`)
  }
}

function problemOf(fault: unknown) {
  const reason = fault instanceof Error ? fault.message : String(fault)
  return {
    code: 'internal',
    detail: `It was tried three times and broke off by a fault of the program: ${reason}`,
  } as const
}

async function insist(write: () => Promise<unknown>): Promise<void> {
  for (let left = TRIES_TO_KEEP - 1; ; left--) {
    try {
      await write()
      return
    } catch (fault) {
      if (left === 0) throw fault
      await sleep(BETWEEN_TRIES_MS)
    }
  }
}
