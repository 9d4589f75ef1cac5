import type { Clock } from '../services/ports.ts'
import type { HeldWork, WorkItem, WorkStore } from '../services/work-ports.ts'

const PROBLEM: NonNullable<WorkItem['problem']> = {
  code: 'interrupted',
  detail:
    'The worker was lost three times in the middle of it, so it is not tried again. See the log of the server, then start it once more.',
}

interface Seen {
  readonly beat: string
  readonly sinceMs: number
}

/**
 * Finds items whose worker is gone: one whose beat has not moved for so long as this process itself
 * watched. Time is that of a steady counter here, so no clock of any machine has a say in it.
 */
export class LostWork {
  readonly #store: Pick<WorkStore, 'held' | 'breakDown'>
  readonly #clock: Clock
  readonly #patienceMs: number
  #seen = new Map<string, Seen>()

  constructor(store: Pick<WorkStore, 'held' | 'breakDown'>, clock: Clock, patienceMs: number) {
    this.#store = store
    this.#clock = clock
    this.#patienceMs = patienceMs
  }

  /** @param isOwn true for what is in the hands of this process, which lives */
  async putBack(isOwn: (held: HeldWork) => boolean): Promise<void> {
    const held = (await this.#store.held()).filter((item) => !isOwn(item))
    const nowMs = performance.now()
    const seen = new Map<string, Seen>()
    for (const item of held) {
      const beat = `${item.attempt}.${item.beat}`
      const before = this.#seen.get(item.id)
      const sinceMs = before?.beat === beat ? before.sinceMs : nowMs
      if (nowMs - sinceMs < this.#patienceMs) seen.set(item.id, { beat, sinceMs })
      else await this.#store.breakDown(item, PROBLEM, this.#clock())
    }
    this.#seen = seen
  }
}
