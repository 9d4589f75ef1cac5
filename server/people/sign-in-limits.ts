import type { KnownTries, StoredTries, TryStore } from '../services/people-ports.ts'
import type { Clock } from '../services/ports.ts'
import { Refusal } from '../services/refusal.ts'
import { keyedHash } from './secrets.ts'

const SECOND_MS = 1000
const MINUTE_MS = 60 * SECOND_MS
const DAY_MS = 24 * 60 * MINUTE_MS

/** How soon the wait begins, and where it ends growing. */
interface Brake {
  readonly freeTries: number
  readonly longestWaitMs: number
}

/**
 * NIST SP 800-63B, 5.2.2, allows no more than 100 failures in a row for an account; how the wait grows
 * is common practice, no source. Three counts stand side by side:
 *
 * - account and address together bear the long wait, so whoever guesses elsewhere keeps nobody out;
 * - an address alone, since a guesser may go through many accounts; people behind one share it;
 * - an account alone, since a guesser may come from many addresses; its wait stays short, and does
 *   not bind where that person has signed in from before.
 */
const BRAKES = {
  both: { freeTries: 5, longestWaitMs: 15 * MINUTE_MS },
  address: { freeTries: 30, longestWaitMs: 15 * MINUTE_MS },
  account: { freeTries: 20, longestWaitMs: 30 * SECOND_MS },
} as const satisfies Record<string, Brake>

type Count = keyof typeof BRAKES

const FORGET_FAILURES_MS = DAY_MS
const FORGET_ADDRESS_MS = 90 * DAY_MS

export interface Door {
  /** Email as typed, or the id of a person; left out where it is not known. */
  readonly account?: string
  readonly address: string
}

/** Slows down whoever tries passwords, codes and invitations. */
export class SignInLimits {
  readonly #tries: TryStore
  readonly #secret: string
  readonly #clock: Clock

  /** @param secret makes hashes of emails and addresses that nobody else can make */
  constructor(tries: TryStore, secret: string, clock: Clock) {
    this.#tries = tries
    this.#secret = secret
    this.#clock = clock
  }

  /**
   * Lets one try through. It counts as failed from the start, so that many at once are no way
   * around, and is taken back once it has succeeded: where the work throws, it stays.
   *
   * @throws Refusal `too-many-tries`, and what the work throws
   */
  async guard<Result>(door: Door, work: () => Promise<Result>): Promise<Result> {
    await this.#enter(door)
    const result = await work()
    await this.#leave(door)
    return result
  }

  /** True only for the first who comes with this text within the time. */
  async isFirst(text: string, withinMs: number): Promise<boolean> {
    const key = this.#hash('once', text)
    const at = this.#clock()
    let isFirst = false
    await this.#tries.update([key], at, (known) => {
      isFirst = !known.has(key)
      return new Map([[key, { failures: 0, openAt: at, forgetAt: later(at, withinMs) }]])
    })
    return isFirst
  }

  async #enter(door: Door): Promise<void> {
    const at = this.#clock()
    const keys = this.#keys(door)
    const known = this.#hash('known', door.account ?? '', door.address)
    await this.#tries.update([...keys.values(), known], at, (found) => {
      const binding = [...keys].filter(([count]) => count !== 'account' || !found.has(known))
      const waitMs = Math.max(
        0,
        ...binding.map(([count, key]) => waitOf(found.get(key), BRAKES[count], at)),
      )
      if (waitMs > 0) throw tooMany(waitMs)
      return new Map(
        [...keys].map(([count, key]) => [key, failed(found.get(key), BRAKES[count], at)]),
      )
    })
  }

  async #leave(door: Door): Promise<void> {
    const at = this.#clock()
    const keys = this.#keys(door)
    await this.#tries.update([...keys.values()], at, (found) => {
      const next = new Map<string, StoredTries | null>()
      for (const [count, key] of keys)
        next.set(key, count === 'both' ? null : takenBack(found, key))
      if (door.account !== undefined) {
        const known = this.#hash('known', door.account, door.address)
        next.set(known, { failures: 0, openAt: at, forgetAt: later(at, FORGET_ADDRESS_MS) })
      }
      return next
    })
  }

  #keys({ account, address }: Door): Map<Count, string> {
    const keys = new Map<Count, string>([['address', this.#hash('address', address)]])
    if (account !== undefined) {
      keys.set('both', this.#hash('both', account, address))
      keys.set('account', this.#hash('account', account))
    }
    return keys
  }

  #hash(...parts: readonly string[]): string {
    return keyedHash(this.#secret, JSON.stringify(parts.map((part) => part.toLowerCase())))
  }
}

/** Two tries at once may take their turns in another order than their times; that alone is no wait. */
function waitOf(tries: StoredTries | undefined, brake: Brake, at: string): number {
  if (tries === undefined || waitAfter(tries.failures, brake) === 0) return 0
  return Date.parse(tries.openAt) - Date.parse(at)
}

function failed(before: StoredTries | undefined, brake: Brake, at: string): StoredTries {
  const failures = (before?.failures ?? 0) + 1
  return {
    failures,
    openAt: later(at, waitAfter(failures, brake)),
    forgetAt: later(at, FORGET_FAILURES_MS),
  }
}

/** Nothing at first, then a second, doubled with each further failure. */
function waitAfter(failures: number, { freeTries, longestWaitMs }: Brake): number {
  if (failures < freeTries) return 0
  return Math.min(longestWaitMs, SECOND_MS * 2 ** (failures - freeTries))
}

function takenBack(found: KnownTries, key: string): StoredTries | null {
  const tries = found.get(key)
  if (tries === undefined || tries.failures <= 1) return null
  return { ...tries, failures: tries.failures - 1 }
}

function later(at: string, ms: number): string {
  return new Date(Date.parse(at) + ms).toISOString()
}

function tooMany(waitMs: number): Refusal {
  const retryAfterS = Math.ceil(waitMs / SECOND_MS)
  const wait = retryAfterS < 90 ? `${retryAfterS} s` : `${Math.ceil(retryAfterS / 60)} minutes`
  return new Refusal('too-many-tries', `There were too many tries. Wait ${wait}, then try again.`, {
    retryAfterS,
  })
}
