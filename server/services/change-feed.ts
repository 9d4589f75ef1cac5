import type { ChangeEvent, ChangeNotice } from '#contract/history.ts'
import { type Asker, mayDo, type Right } from '#contract/rights.ts'
import { rightToSee } from './may-see.ts'
import type { HistoryEntry, Ports } from './ports.ts'

type ChangePorts = Pick<Ports, 'store' | 'reportFault'>

const PAGE_ENTRIES = 200

/** Followers that are further behind read the history by themselves. */
const MOST_RECENT = 1000

const TRY_AGAIN_MS = 1000

/** A change with the right that it is seen with. */
interface Notice {
  readonly data: ChangeNotice['data']
  readonly right: Right
}

/**
 * Tells followers of every change in the order of the history, none left out and none twice. The
 * history is read once for all of them; who reads slowly or comes back later reads their own part
 * of it, so that nothing is held for anyone.
 */
export class ChangeFeed {
  readonly #ports: ChangePorts
  readonly #waiting = new Set<() => void>()
  #begun: Promise<void> | null = null
  /** What was read last, in order: everything after `#recentFrom` up to `#seen`. */
  #recent: Notice[] = []
  #recentFrom = 0
  #seen = 0
  #isReading = false
  #isBehind = false
  #isStopped = false
  #followers = 0
  readonly #stopHearing: () => void

  constructor(ports: ChangePorts) {
    this.#ports = ports
    this.#stopHearing = ports.store.onChange(() => this.#heard())
  }

  /** Streams that are open. */
  get followers(): number {
    return this.#followers
  }

  /** First from where on changes are told, then each change that the asker may see. */
  follow(asker: Asker, after?: number): AsyncIterable<ChangeEvent> {
    return {
      [Symbol.asyncIterator]: () => {
        const follower: Follower = { isGone: false, wake: () => {} }
        const events = this.#events(asker, after, follower)
        const leave = () => {
          follower.isGone = true
          follower.wake()
          return events.return(undefined)
        }
        return { next: () => events.next(), return: leave }
      },
    }
  }

  /** Ends all streams. */
  stop(): void {
    this.#isStopped = true
    this.#stopHearing()
    this.#wakeAll()
  }

  async *#events(
    asker: Asker,
    after: number | undefined,
    follower: Follower,
  ): AsyncGenerator<ChangeEvent, undefined> {
    this.#followers++
    try {
      yield* this.#told(asker, after, follower)
    } finally {
      this.#followers--
    }
    return undefined
  }

  async *#told(
    asker: Asker,
    after: number | undefined,
    follower: Follower,
  ): AsyncGenerator<ChangeEvent, void> {
    await this.#begin()
    // A number from the future is of another database, as after a restore.
    let seq = after === undefined || after > this.#seen ? this.#seen : after
    yield { event: 'here', id: String(seq), data: { seq } }
    while (!this.#isStopped && !follower.isGone) {
      if (seq >= this.#seen) await this.#nextChange(follower)
      const page = await this.#pageAfter(seq)
      if (page.length === 0) seq = this.#seen
      for (const notice of page) {
        seq = notice.data.seq
        const told = noticeFor(asker, notice)
        if (told) yield { event: 'change', id: String(seq), data: told }
      }
    }
  }

  #nextChange(follower: Follower): Promise<void> {
    return new Promise((resolve) => {
      const wake = () => {
        this.#waiting.delete(wake)
        resolve()
      }
      follower.wake = wake
      this.#waiting.add(wake)
      if (follower.isGone || this.#isStopped) wake()
    })
  }

  #wakeAll(): void {
    for (const wake of [...this.#waiting]) wake()
  }

  async #pageAfter(seq: number): Promise<readonly Notice[]> {
    if (seq >= this.#seen) return []
    if (seq >= this.#recentFrom) return this.#recent.filter(({ data }) => data.seq > seq)
    const entries = await this.#ports.store.history.after(seq, PAGE_ENTRIES)
    return entries.map(noticeOf)
  }

  #begin(): Promise<void> {
    this.#begun ??= this.#readNewest().catch((error: unknown) => {
      this.#begun = null
      throw error
    })
    return this.#begun
  }

  async #readNewest(): Promise<void> {
    this.#seen = await this.#ports.store.history.newestSeq()
    this.#recentFrom = this.#seen
  }

  #heard(): void {
    if (this.#begun === null || this.#isStopped) return
    this.#isBehind = true
    if (!this.#isReading) void this.#catchUp()
  }

  async #catchUp(): Promise<void> {
    this.#isReading = true
    try {
      await this.#begin()
      while (this.#isBehind && !this.#isStopped) await this.#readPage()
    } catch (fault) {
      this.#ports.reportFault(fault)
      setTimeout(() => this.#heard(), TRY_AGAIN_MS).unref()
    } finally {
      this.#isReading = false
    }
  }

  async #readPage(): Promise<void> {
    this.#isBehind = false
    const entries = await this.#ports.store.history.after(this.#seen, PAGE_ENTRIES)
    if (entries.length === 0) return
    this.#isBehind ||= entries.length === PAGE_ENTRIES
    const known = [...this.#recent, ...entries.map(noticeOf)]
    const recent = known.slice(-MOST_RECENT)
    const lastDropped = known.at(-MOST_RECENT - 1)
    this.#recentFrom = lastDropped?.data.seq ?? this.#recentFrom
    this.#recent = recent
    this.#seen = recent.at(-1)?.data.seq ?? this.#seen
    this.#wakeAll()
  }
}

interface Follower {
  isGone: boolean
  /** Lets go where it waits for the next change. */
  wake: () => void
}

function noticeOf(entry: HistoryEntry): Notice {
  const { seq, subject, feederId, subjectId, version, what, actorId, at } = entry
  return {
    data: { seq, subject, feederId, subjectId, version, what, actorId, at },
    right: rightToSee(entry),
  }
}

/** Null where the asker may not see the thing; without who it was where they may not see that. */
function noticeFor(asker: Asker, { data, right }: Notice): ChangeNotice['data'] | null {
  if (!mayDo(asker, right)) return null
  return mayDo(asker, 'see who changed what') ? data : { ...data, actorId: null }
}
