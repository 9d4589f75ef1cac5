import type { Context } from 'hono'
import { type SSEStreamingApi, streamSSE } from 'hono/streaming'
import type { ServerLog } from '../log/server-log.ts'

interface NamedEvent {
  readonly event: string
  readonly data: unknown
}

/** A comment this often keeps proxies from closing a quiet stream. */
const KEEP_ALIVE_MS = 15_000

/** What a stream needs of the server around it. */
export interface StreamSurroundings {
  /** Ends every stream; a browser then asks again, another server or the next start. */
  readonly stopping: AbortSignal
  readonly log: ServerLog
}

/** Answers server-sent events (HTML Living Standard, section 9.2), one for each that `events` yields. */
export function eventStream(
  context: Context,
  events: AsyncIterable<NamedEvent>,
  { stopping, log }: StreamSurroundings,
): Response {
  const requestId = String(context.get('requestId'))
  const send = async (stream: SSEStreamingApi) => {
    const iterator = events[Symbol.asyncIterator]()
    const keepAlive = setInterval(() => void stream.write(': still here\n\n'), KEEP_ALIVE_MS)
    const end = endOf(stream, stopping)
    try {
      await Promise.race([sendEach(stream, iterator), end.reached])
    } finally {
      clearInterval(keepAlive)
      end.forget()
      // Not waited for: it may only end with the next event.
      void iterator.return?.()
    }
  }
  return streamSSE(context, send, async (fault) => log.fault(fault, { requestId }))
}

async function sendEach(
  stream: SSEStreamingApi,
  iterator: AsyncIterator<NamedEvent>,
): Promise<void> {
  for (;;) {
    const next = await iterator.next()
    if (next.done || stream.aborted) return
    const { event, data } = next.value
    await stream.writeSSE({ event, data: JSON.stringify(data) })
  }
}

/** When the reader is gone or the server stops. */
function endOf(stream: SSEStreamingApi, stopping: AbortSignal) {
  let forget = () => {}
  const reached = new Promise<void>((resolve) => {
    const end = () => resolve()
    stream.onAbort(end)
    stopping.addEventListener('abort', end, { once: true })
    forget = () => stopping.removeEventListener('abort', end)
    if (stopping.aborted) end()
  })
  return { reached, forget }
}
