import type { Streams } from './command.ts'

/** One line that is drawn again and again on a terminal; nothing where the error stream is none. */
export class ProgressLine {
  readonly #streams: Streams
  #shown = ''

  constructor(streams: Streams) {
    this.#streams = streams
  }

  show(done: number, total: number, phase: string): void {
    const share = total > 0 ? Math.floor((100 * done) / total) : 0
    const text = `${phase}: ${done} of ${total} (${share} %)`
    if (!this.#streams.isErrTerminal || text === this.#shown) return
    this.#streams.redraw(text.padEnd(this.#shown.length))
    this.#shown = text
  }

  clear(): void {
    if (this.#shown === '') return
    this.#streams.redraw(' '.repeat(this.#shown.length))
    this.#streams.redraw('')
    this.#shown = ''
  }
}
