import type { HttpBindings } from '@hono/node-server'
import type { Context } from 'hono'
import { type SSEStreamingApi, streamSSE } from 'hono/streaming'
import type { ServerLog } from '../log/server-log.ts'

interface NamedEvent {
  readonly event: string
  readonly data: unknown
  /** Where the stream goes on from after it broke. */
  readonly id?: string
}

/** A comment this often keeps proxies from closing a quiet stream. */
export const STREAM_BEAT_MS = 15_000

/** Whether who follows may still do so is looked at with every second of them. */
const BEATS_BETWEEN_CHECKS = 2

/** A reader that took in nothing for so many of them is given up. */
const MOST_UNREAD_BEATS = 8

/** What a stream needs of the server around it. */
export interface StreamSurroundings {
  /** Ends every stream; a browser then asks again, another server or the next start. */
  readonly stopping: AbortSignal
  readonly log: ServerLog
  /** How often a stream gives a sign of life. */
  readonly beatMs: number
}

interface Admission {
  readonly isStillAdmitted: () => Promise<boolean>
}

/** Answers server-sent events (HTML Living Standard, section 9.2), one for each that `events` yields. */
export function eventStream(
  context: Context,
  events: AsyncIterable<NamedEvent>,
  { stopping, log, beatMs, isStillAdmitted }: StreamSurroundings & Admission,
): Response {
  const requestId = String(context.get('requestId'))
  const fail = (fault: unknown) => log.fault(fault, { requestId })
  const send = async (stream: SSEStreamingApi) => {
    const iterator = events[Symbol.asyncIterator]()
    const end = endOf(stream, stopping)
    const stopBeating = beat(stream, beatMs, {
      isStillAdmitted,
      end: end.reach,
      cut: () => {
        end.reach()
        // What was written waits for a reader that takes nothing, so only a broken line ends it.
        bindingsOf(context).outgoing.destroy()
      },
      fail,
    })
    try {
      await Promise.race([sendEach(stream, iterator), end.reached])
    } finally {
      stopBeating()
      end.forget()
      // Not waited for: it may only end with the next event.
      void iterator.return?.()
    }
  }
  return streamSSE(context, send, async (fault) => fail(fault))
}

async function sendEach(
  stream: SSEStreamingApi,
  iterator: AsyncIterator<NamedEvent>,
): Promise<void> {
  for (;;) {
    const next = await iterator.next()
    if (next.done || stream.aborted) return
    const { event, data, id } = next.value
    // Waits until the reader has room, so that nothing piles up for one that is slow.
    await stream.writeSSE({ event, data: JSON.stringify(data), ...(id !== undefined && { id }) })
  }
}

function bindingsOf({ env }: Context): HttpBindings {
  return env as HttpBindings
}

interface Watch extends Admission {
  /** The reader may follow no more. */
  readonly end: () => void
  /** The reader takes nothing. */
  readonly cut: () => void
  readonly fail: (fault: unknown) => void
}

/** Keeps the stream open while the reader reads and may read. */
function beat(
  stream: SSEStreamingApi,
  beatMs: number,
  { isStillAdmitted, end, cut, fail }: Watch,
): () => void {
  let beats = 0
  let unread = 0
  const timer = setInterval(() => {
    beats++
    if (unread > 0 && ++unread > MOST_UNREAD_BEATS) return cut()
    if (unread === 0) {
      unread = 1
      void stream.write(': still here\n\n').then(() => {
        unread = 0
      })
    }
    if (beats % BEATS_BETWEEN_CHECKS !== 0) return
    isStillAdmitted().then((isAdmitted) => {
      if (!isAdmitted) end()
    }, fail)
  }, beatMs)
  return () => clearInterval(timer)
}

/** When the reader is gone, the server stops, or `reach` says so. */
function endOf(stream: SSEStreamingApi, stopping: AbortSignal) {
  let forget = () => {}
  let reach = () => {}
  const reached = new Promise<void>((resolve) => {
    reach = () => resolve()
    stream.onAbort(reach)
    stopping.addEventListener('abort', reach, { once: true })
    forget = () => stopping.removeEventListener('abort', reach)
    if (stopping.aborted) reach()
  })
  return { reached, reach, forget }
}
