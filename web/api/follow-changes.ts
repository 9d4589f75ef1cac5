import { ChangeEvent, type ChangeNotice } from '#contract/history.ts'

export type Notice = ChangeNotice['data']

export interface Follower {
  readonly onNotice: (notice: Notice) => void
  /** The stream is open (true), or broke and is being tried again (false). */
  readonly onState: (isOpen: boolean) => void
}

const TRY_AGAIN_MS = 4_000

/** Number of the last change that this page knows of. */
let lastSeq: number | null = null

/**
 * Follows the changes that are made to the record until the returned function is called. After a
 * break the stream goes on behind the last change heard: by itself where the connection was lost
 * (the browser then sends Last-Event-ID), by `after` where the server had refused it.
 */
export function followChanges({ onNotice, onState }: Follower): () => void {
  let events: EventSource | null = null
  let timer: number | undefined
  const hear = ({ type, data }: MessageEvent<string>) => {
    const told = ChangeEvent.parse({ event: type, id: '', data: JSON.parse(data) })
    lastSeq = told.data.seq
    if (told.event === 'change') onNotice(told.data)
  }
  const open = () => {
    events = new EventSource(`/api/changes${lastSeq === null ? '' : `?after=${lastSeq}`}`)
    events.addEventListener('open', () => onState(true))
    events.addEventListener('here', hear)
    events.addEventListener('change', hear)
    events.addEventListener('error', () => {
      onState(false)
      if (events?.readyState === EventSource.CLOSED) timer = window.setTimeout(open, TRY_AGAIN_MS)
    })
  }
  open()
  return () => {
    events?.close()
    window.clearTimeout(timer)
  }
}
