import type { Context } from 'hono'
import { streamSSE } from 'hono/streaming'

interface NamedEvent {
  readonly event: string
  readonly data: unknown
}

/** A comment this often keeps proxies from closing a quiet stream. */
const KEEP_ALIVE_MS = 15_000

/** Answers server-sent events (HTML Living Standard, section 9.2), one for each that `events` yields. */
export function eventStream(context: Context, events: AsyncIterable<NamedEvent>): Response {
  return streamSSE(context, async (stream) => {
    const keepAlive = setInterval(() => void stream.write(': still here\n\n'), KEEP_ALIVE_MS)
    stream.onAbort(() => clearInterval(keepAlive))
    try {
      for await (const { event, data } of events) {
        if (stream.aborted) return
        await stream.writeSSE({ event, data: JSON.stringify(data) })
      }
    } finally {
      clearInterval(keepAlive)
    }
  })
}
