/** Wakes all who wait; nobody waits longer than they said. */
export class Bell {
  readonly #waiting = new Set<() => void>()

  ring(): void {
    for (const wake of [...this.#waiting]) wake()
  }

  /** Resolves at the next ring, at the latest after so many milliseconds. */
  next(mostMs: number): Promise<void> {
    return new Promise((resolve) => {
      const wake = () => {
        clearTimeout(timer)
        this.#waiting.delete(wake)
        resolve()
      }
      const timer = setTimeout(wake, mostMs)
      this.#waiting.add(wake)
    })
  }
}
