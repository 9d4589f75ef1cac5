import { ChangeEvent, type ChangeNotice } from '#contract/history.ts'
import { askWhetherHere, onServerBack } from '../device/connection.ts'

export type Notice = ChangeNotice['data']

export interface Follower {
  readonly onNotice: (notice: Notice) => void
  /** The stream is open (true), or broke and is being tried again (false). */
  readonly onState: (isOpen: boolean) => void
}

const FIRST_PAUSE_MS = 1_000
const LONGEST_PAUSE_MS = 60_000

/** Number of the last change that this page knows of. */
let lastSeq: number | null = null

/**
 * Follows the changes that are made to the record until the returned function is called. After a
 * break the stream goes on behind the last change heard. Left to itself the browser would ask a
 * dead server every few seconds for as long as the page stands; here the stream waits until
 * `connection.ts` has found the server again.
 */
export function followChanges({ onNotice, onState }: Follower): () => void {
  let events: EventSource | null = null
  let timer: ReturnType<typeof setTimeout> | undefined
  let pauseMs = FIRST_PAUSE_MS
  let isLeft = false
  const hear = ({ type, data }: MessageEvent<string>) => {
    const told = ChangeEvent.parse({ event: type, id: '', data: JSON.parse(data) })
    lastSeq = told.data.seq
    if (told.event === 'change') onNotice(told.data)
  }
  const open = () => {
    clearTimeout(timer)
    const stream = new EventSource(`/api/changes${lastSeq === null ? '' : `?after=${lastSeq}`}`)
    events = stream
    stream.addEventListener('open', () => {
      pauseMs = FIRST_PAUSE_MS
      onState(true)
    })
    stream.addEventListener('here', hear)
    stream.addEventListener('change', hear)
    stream.addEventListener('error', () => {
      stream.close()
      events = null
      onState(false)
      timer = setTimeout(() => void openIfHere(), pauseMs)
      pauseMs = Math.min(pauseMs * 2, LONGEST_PAUSE_MS)
    })
  }
  const openIfHere = async () => {
    if ((await askWhetherHere()) && events === null && !isLeft) open()
  }
  const leave = onServerBack(() => {
    if (events === null) open()
  })
  open()
  return () => {
    isLeft = true
    leave()
    events?.close()
    clearTimeout(timer)
  }
}
