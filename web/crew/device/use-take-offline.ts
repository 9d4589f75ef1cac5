import { useEffect, useRef, useState } from 'react'
import { takeOffline } from '../../api/on-device.ts'

export type Taking =
  | { readonly status: 'idle' }
  | {
      readonly status: 'taking'
      readonly done: number
      readonly all: number
      readonly words: string
    }
  | { readonly status: 'failed'; readonly problem: string }

export type What = { readonly jobId: string } | { readonly feederId: string }

/** Takes jobs or feeders onto the device, one after the other, with the progress, and a way to stop. */
export function useTakeOffline(all: readonly What[]) {
  const [taking, setTaking] = useState<Taking>({ status: 'idle' })
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  const take = async () => {
    const stop = new AbortController()
    running.current = stop
    setTaking({ status: 'taking', done: 0, all: 0, words: 'Beginning' })
    try {
      for (const [index, what] of all.entries()) {
        const place = all.length > 1 ? `Job ${index + 1} of ${all.length}. ` : ''
        const onProgress = (done: number, count: number, words: string) =>
          setTaking({ status: 'taking', done, all: count, words: place + words })
        await takeOffline(what, onProgress, stop.signal)
      }
      setTaking({ status: 'idle' })
    } catch (error) {
      if (stop.signal.aborted) setTaking({ status: 'idle' })
      else {
        const problem = error instanceof Error ? error.message : String(error)
        setTaking({ status: 'failed', problem })
      }
    }
  }
  return { taking, take: () => void take(), cancel: () => running.current?.abort() }
}
