import type { Progress, WorkItem, WorkStore } from '../services/work-ports.ts'
import { Bell } from './bell.ts'

/** How often a row is looked at that nobody told of: another process may have changed it. */
const LOOK_AGAIN_MS = 1000

/** The present state is given again after so long, so that who follows no more is noticed. */
const REPEAT_MS = 15_000

/** Items as their followers see them: what runs in this process at once, the rest by its row. */
export class LiveWork {
  readonly #store: Pick<WorkStore, 'find'>
  readonly #progress = new Map<string, Progress>()
  readonly #bells = new Map<string, Bell>()
  #isClosed = false

  constructor(store: Pick<WorkStore, 'find'>) {
    this.#store = store
  }

  /** An item in the hands of this process came so far. */
  told(workId: string, progress: Progress): void {
    this.#progress.set(workId, progress)
    this.changed(workId)
  }

  /** The item is in the hands of this process no more. */
  letGo(workId: string): void {
    this.#progress.delete(workId)
    this.changed(workId)
  }

  changed(workId: string): void {
    this.#bells.get(workId)?.ring()
  }

  /** Ends all that is followed. */
  close(): void {
    this.#isClosed = true
    for (const bell of this.#bells.values()) bell.ring()
  }

  /** A slow reader skips what is between. */
  async *follow(workId: string): AsyncGenerator<WorkItem> {
    let given = ''
    let givenAt = 0
    try {
      while (!this.#isClosed) {
        const changed = this.#bellOf(workId).next(LOOK_AGAIN_MS)
        const item = await this.find(workId)
        if (!item) return
        const now = JSON.stringify([item.state, item.done, item.total, item.phase])
        if (now !== given || performance.now() - givenAt > REPEAT_MS) {
          given = now
          givenAt = performance.now()
          yield item
        }
        if (item.endedAt !== null) return
        await changed
      }
    } finally {
      this.#bells.delete(workId)
    }
  }

  async find(workId: string): Promise<WorkItem | null> {
    const item = await this.#store.find(workId)
    if (item?.state !== 'running') return item
    return { ...item, ...this.#progress.get(workId) }
  }

  #bellOf(workId: string): Bell {
    const bell = this.#bells.get(workId) ?? new Bell()
    this.#bells.set(workId, bell)
    return bell
  }
}
