import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

/** A lost answer is asked for again within minutes, or within days where a phone was out of reach. */
const KEPT_DAYS = 7
const DAY_MS = 24 * 60 * 60 * 1000

/** Expired keys are looked for once in so many writes. */
const WRITES_BETWEEN_FORGETTING = 100

export interface RepeatableWrite {
  readonly askerId: string
  readonly key: string
  /** Of all that is asked, the asker too. */
  readonly fingerprint: string
}

/**
 * Does each write once, however often it is asked for: its change and its answer are kept in one
 * transaction under the key that came with it. Of a write that fails nothing is kept.
 */
export function repeatableWrites({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  let writes = 0
  const forgetExpired = async (now: string) => {
    if (writes++ % WRITES_BETWEEN_FORGETTING !== 0) return
    const before = new Date(Date.parse(now) - KEPT_DAYS * DAY_MS).toISOString()
    await store.requestKeys.forget(before)
  }
  const answerBefore = async (write: RepeatableWrite) => {
    const kept = await store.requestKeys.find(write.askerId, write.key)
    if (kept && kept.fingerprint !== write.fingerprint) throw reused(write.key)
    return kept
  }
  return {
    /** Null where the write was not done yet. @throws Refusal `key-reused` */
    answerBefore,

    /** @throws Refusal `key-reused` where the key came with another request. */
    once: (write: RepeatableWrite, work: () => Promise<unknown>): Promise<unknown> =>
      store.together(async () => {
        const before = await answerBefore(write)
        if (before) return before.answer
        const { askerId, key, fingerprint } = write
        const answer = await work()
        const now = clock()
        await forgetExpired(now)
        await store.requestKeys.keep(askerId, key, { fingerprint, answer }, now)
        return answer
      }),
  }
}

function reused(key: string): Refusal {
  return new Refusal(
    'key-reused',
    `The key "${key}" was used for another request before. Give each new request a key of its own.`,
  )
}
