import type { Streams } from './command.ts'

/** One line that is drawn again and again on a terminal; nothing where the error stream is none. */
export class ProgressLine {
  readonly #streams: Streams
  /** Phase and percent as drawn last: a finer step is not worth a redraw. */
  #step = ''
  #shown = ''

  constructor(streams: Streams) {
    this.#streams = streams
  }

  show(done: number, total: number, phase: string): void {
    const share = total > 0 ? Math.floor((100 * done) / total) : 0
    const step = `${phase} ${share}`
    if (!this.#streams.isErrTerminal || step === this.#step) return
    const text = `${phase}: ${done} of ${total} (${share} %)`
    this.#streams.redraw(text.padEnd(this.#shown.length))
    this.#step = step
    this.#shown = text
  }

  clear(): void {
    if (this.#shown === '') return
    this.#streams.redraw(' '.repeat(this.#shown.length))
    this.#streams.redraw('')
    this.#shown = ''
  }
}
