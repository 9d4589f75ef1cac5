import type { Feeder } from '#domain/feeder/feeder.ts'

/** Some 10 MB each for a feeder of ten thousand poles. */
const MOST_KEPT = 12

/** Feeders as they were parsed last. A version never changes, so nothing here grows old. */
export class ParsedFeeders {
  /** In the order of use, the longest unused first. */
  readonly #kept = new Map<string, Feeder>()

  find(feederId: string, version: number): Feeder | undefined {
    const key = keyOf(feederId, version)
    const feeder = this.#kept.get(key)
    if (feeder) this.#keep(key, feeder)
    return feeder
  }

  keep(feederId: string, version: number, feeder: Feeder): void {
    this.#keep(keyOf(feederId, version), feeder)
  }

  #keep(key: string, feeder: Feeder): void {
    this.#kept.delete(key)
    this.#kept.set(key, feeder)
    const [oldest] = this.#kept.keys()
    if (this.#kept.size > MOST_KEPT && oldest !== undefined) this.#kept.delete(oldest)
  }
}

function keyOf(feederId: string, version: number): string {
  return `${feederId} ${version}`
}
