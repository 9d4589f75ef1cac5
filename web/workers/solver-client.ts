import type { CallMessage, ReplyMessage } from './messages.ts'
import type { SolverFunctions } from './solver-functions.ts'

interface Waiting extends CallMessage {
  readonly resolve: (value: unknown) => void
  readonly reject: (reason: Error) => void
  readonly signal: AbortSignal | undefined
}

let worker: Worker | null = null
let lastId = 0
let running: Waiting | null = null
const queue: Waiting[] = []

/**
 * Calls a function of the solver's worker. One call runs at a time; a call whose signal is
 * aborted before its turn is dropped, so that dragging leaves no tail of old questions.
 */
export function callSolver<Name extends keyof SolverFunctions>(
  name: Name,
  args: Parameters<SolverFunctions[Name]>,
  signal?: AbortSignal,
): Promise<ReturnType<SolverFunctions[Name]>> {
  return new Promise((resolve, reject) => {
    lastId += 1
    const settle = resolve as (value: unknown) => void
    queue.push({ id: lastId, name, args, resolve: settle, reject, signal })
    next()
  })
}

function next(): void {
  if (running) return
  const waiting = queue.shift()
  if (!waiting) return
  if (waiting.signal?.aborted) {
    waiting.reject(new DOMException('A newer question took its place.', 'AbortError'))
    next()
    return
  }
  running = waiting
  const { id, name, args } = waiting
  theWorker().postMessage({ id, name, args })
}

function theWorker(): Worker {
  if (worker) return worker
  worker = new Worker(new URL('./solver-worker.ts', import.meta.url), { type: 'module' })
  worker.addEventListener('message', ({ data }: MessageEvent<ReplyMessage>) => finish(data))
  worker.addEventListener('error', ({ message }) => {
    worker = null
    if (running) finish({ id: running.id, fault: `The solver stopped: ${message}` })
  })
  return worker
}

function finish(reply: ReplyMessage): void {
  if (running?.id !== reply.id) return
  const { resolve, reject } = running
  running = null
  if ('fault' in reply) reject(new Error(reply.fault))
  else resolve(reply.value)
  next()
}
