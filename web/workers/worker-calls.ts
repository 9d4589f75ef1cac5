import type { Progress, ReplyMessage } from './messages.ts'

export interface CallOptions {
  /** Aborted before its turn, the call is dropped; one under way is let run. */
  readonly signal?: AbortSignal | undefined
  /** Aborted under way, the worker is stopped; the next call starts another. */
  readonly stop?: AbortSignal | undefined
  readonly onProgress?: ((progress: Progress) => void) | undefined
}

/** Arguments, or how they come about when it is their turn, in the so-manieth worker. */
export type Args = readonly unknown[] | ((start: number) => readonly unknown[])

interface Waiting {
  readonly id: number
  readonly name: string
  readonly args: Args
  readonly resolve: (value: unknown) => void
  readonly reject: (reason: Error) => void
  readonly options: CallOptions
}

/**
 * The page's side of one worker. One call runs at a time, in the order of asking, so that dragging
 * leaves no tail of old questions.
 */
export class WorkerCalls {
  readonly #start: () => Worker
  readonly #name: string
  readonly #queue: Waiting[] = []
  #worker: Worker | null = null
  #running: Waiting | null = null
  #lastId = 0
  #starts = 0

  /** @param name What it is called where it stops: "The solver". */
  constructor(name: string, start: () => Worker) {
    this.#name = name
    this.#start = start
  }

  call(name: string, args: Args, options: CallOptions = {}): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.#lastId += 1
      this.#queue.push({ id: this.#lastId, name, args, resolve, reject, options })
      this.#next()
    })
  }

  #next(): void {
    if (this.#running) return
    const waiting = this.#queue.shift()
    if (!waiting) return
    const { id, name, args, options } = waiting
    if (options.signal?.aborted || options.stop?.aborted) {
      waiting.reject(new DOMException('A newer question took its place.', 'AbortError'))
      this.#next()
      return
    }
    this.#running = waiting
    options.stop?.addEventListener('abort', this.#stop)
    const worker = this.#theWorker()
    const given = typeof args === 'function' ? args(this.#starts) : args
    worker.postMessage({ id, name, args: given })
  }

  #theWorker(): Worker {
    if (this.#worker) return this.#worker
    const worker = this.#start()
    this.#worker = worker
    this.#starts += 1
    worker.addEventListener('message', ({ data }: MessageEvent<ReplyMessage>) => this.#hear(data))
    worker.addEventListener('error', ({ message }) => {
      this.#worker = null
      if (!this.#running) return
      this.#hear({ id: this.#running.id, fault: `${this.#name} stopped: ${message}` })
    })
    return worker
  }

  readonly #stop = () => {
    this.#worker?.terminate()
    this.#worker = null
    const running = this.#running
    this.#running = null
    running?.reject(new DOMException('It was cancelled.', 'AbortError'))
    this.#next()
  }

  #hear(reply: ReplyMessage): void {
    const running = this.#running
    if (running?.id !== reply.id) return
    if ('progress' in reply) {
      running.options.onProgress?.(reply.progress)
      return
    }
    running.options.stop?.removeEventListener('abort', this.#stop)
    this.#running = null
    if ('fault' in reply) running.reject(new Error(reply.fault))
    else running.resolve(reply.value)
    this.#next()
  }
}
