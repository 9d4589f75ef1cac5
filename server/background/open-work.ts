import type { Clock } from '../services/ports.ts'
import type { WorkKinds, WorkQueue, WorkStore } from '../services/work-ports.ts'
import { Bell } from './bell.ts'
import { bossDelivery } from './boss-delivery.ts'
import { type Delivery, localDelivery } from './delivery.ts'
import { hearChanges } from './hear-changes.ts'
import { LiveWork } from './live-work.ts'
import { LostWork } from './lost-work.ts'
import { WorkRunner } from './work-runner.ts'

/** A worker that is silent for so long is taken for lost; it beats every second. */
const PATIENCE_MS = 15_000

/** Items that wait are looked for this often where nobody tells of them. */
const LOOK_AGAIN_MS = 1000

export interface WorkOptions {
  readonly store: WorkStore
  readonly kinds: WorkKinds
  readonly clock: Clock
  readonly reportFault: (fault: unknown) => void
  /** Left out where the database is SQLite: then the table itself is the queue. */
  readonly databaseUrl?: string
  /** Items that run at once in this process; with 0 it only hands in and follows. */
  readonly slots: number
  readonly patienceMs?: number
}

export interface OpenWork extends WorkQueue {
  /** Hands back what runs, for another worker or the next start. */
  stop(): Promise<void>
}

/** Long work on the database: hands it in, follows it, and runs it where there are slots. */
export async function openWork(options: WorkOptions): Promise<OpenWork> {
  const { store, databaseUrl, reportFault } = options
  const delivery =
    databaseUrl === undefined
      ? localDelivery(store)
      : await bossDelivery(databaseUrl, store, reportFault)
  const live = new LiveWork(store)
  const workers = new Workers(options, delivery, live)
  const noted = (workId: string, state: string) => {
    live.changed(workId)
    workers.noted(workId, state)
  }
  const hearing = databaseUrl === undefined ? null : hearChanges(databaseUrl, noted)
  const unsubscribe = store.onChange((workId, state) => {
    noted(workId, state)
    if (state === 'queued') delivery.offer(workId).then(() => workers.wake(), reportFault)
  })
  workers.start()
  return {
    submit: store.add,
    find: (workId) => live.find(workId),
    cancel: store.cancel,
    follow: (workId) => live.follow(workId),
    stop: async () => {
      await workers.stop()
      unsubscribe()
      live.close()
      await hearing?.close()
      await delivery.close()
    },
  }
}

/** The slots of this process, and its watch over work whose worker is lost. */
class Workers {
  readonly #options: WorkOptions
  readonly #delivery: Delivery
  readonly #runner: WorkRunner
  readonly #lost: LostWork
  readonly #bell = new Bell()
  #isStopping = false
  #loops: Promise<void>[] = []

  constructor(options: WorkOptions, delivery: Delivery, live: LiveWork) {
    const { store, clock, patienceMs = PATIENCE_MS } = options
    this.#options = options
    this.#delivery = delivery
    this.#runner = new WorkRunner({ ...options, live })
    this.#lost = new LostWork(store, clock, patienceMs)
  }

  start(): void {
    const { slots, reportFault } = this.#options
    if (slots === 0) return
    const watch = () => this.#watch().catch(reportFault)
    const take = () => this.#takeNext().catch(reportFault)
    this.#loops = [this.#repeat(watch), ...Array.from({ length: slots }, () => this.#repeat(take))]
  }

  wake(): void {
    this.#bell.ring()
  }

  noted(workId: string, state: string): void {
    if (state === 'queued') this.wake()
    if (state !== 'running') this.#runner.look(workId)
  }

  async stop(): Promise<void> {
    this.#isStopping = true
    this.#runner.leaveOff()
    this.#bell.ring()
    await Promise.all(this.#loops)
  }

  /** @param act gives true where it is worth going on at once */
  async #repeat(act: () => Promise<unknown>): Promise<void> {
    while (!this.#isStopping) {
      const rung = this.#bell.next(LOOK_AGAIN_MS)
      if ((await act()) !== true) await rung
    }
  }

  async #takeNext(): Promise<boolean> {
    const delivered = await this.#delivery.next()
    if (!delivered || this.#isStopping) return false
    await this.#runner.run(delivered.workId, () => delivered.accept())
    return true
  }

  async #watch(): Promise<void> {
    await this.#lost.putBack((held) => this.#runner.holds(held))
    await this.#delivery.offerLost()
  }
}
