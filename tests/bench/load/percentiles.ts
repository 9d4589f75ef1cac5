/** Times of one kind of request, milliseconds. */
export class Times {
  readonly #timesMs: number[] = []
  #errors = 0

  add(timeMs: number, isGood: boolean): void {
    this.#timesMs.push(timeMs)
    if (!isGood) this.#errors++
  }

  get count(): number {
    return this.#timesMs.length
  }

  get errors(): number {
    return this.#errors
  }

  /** @param share 0.95 for the 95th percentile; NaN where there is no time */
  at(share: number): number {
    const sorted = this.#timesMs.toSorted((a, b) => a - b)
    return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
  }
}
