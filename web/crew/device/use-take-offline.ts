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

/** Takes a job or a feeder onto the device, with its progress, and a way to stop. */
export function useTakeOffline(what: { readonly jobId: string } | { readonly feederId: string }) {
  const [taking, setTaking] = useState<Taking>({ status: 'idle' })
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  const take = async () => {
    const stop = new AbortController()
    running.current = stop
    setTaking({ status: 'taking', done: 0, all: 0, words: 'Beginning' })
    try {
      await takeOffline(
        what,
        (done, all, words) => setTaking({ status: 'taking', done, all, words }),
        stop.signal,
      )
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
