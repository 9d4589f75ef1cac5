import type { HeldWork, Progress, WorkStore } from '../services/work-ports.ts'

/** Progress goes into the row at most this often. */
const TICK_MS = 500

/** Without progress the row still hears of its holder every so many ticks. */
const TICKS_BETWEEN_BEATS = 2

interface PulseOptions {
  readonly store: Pick<WorkStore, 'beat'>
  readonly held: HeldWork
  /** The row is another's, or has ended. */
  readonly onLost: () => void
  readonly reportFault: (fault: unknown) => void
}

/** Tells the row that its holder lives, and how far it is. */
export class Pulse {
  readonly #options: PulseOptions
  readonly #timer: NodeJS.Timeout
  #progress: Progress = { done: 0, total: 0, phase: 'Starting' }
  #isNew = true
  #ticks = 0
  #isWriting = false

  constructor(options: PulseOptions) {
    this.#options = options
    this.#timer = setInterval(() => void this.#tick(), TICK_MS)
  }

  get progress(): Progress {
    return this.#progress
  }

  set progress(progress: Progress) {
    this.#progress = progress
    this.#isNew = true
  }

  /** Looks at once whether the row is still its holder's. */
  look(): void {
    void this.#write()
  }

  stop(): void {
    clearInterval(this.#timer)
  }

  async #tick(): Promise<void> {
    this.#ticks += 1
    if (this.#isNew || this.#ticks >= TICKS_BETWEEN_BEATS) await this.#write()
  }

  async #write(): Promise<void> {
    if (this.#isWriting) return
    this.#isWriting = true
    this.#isNew = false
    this.#ticks = 0
    const { store, held, onLost, reportFault } = this.#options
    try {
      if (!(await store.beat(held, this.#progress))) onLost()
    } catch (fault) {
      // The database is away: the work goes on, and its end is only kept where the row allows it.
      reportFault(fault)
    } finally {
      this.#isWriting = false
    }
  }
}
