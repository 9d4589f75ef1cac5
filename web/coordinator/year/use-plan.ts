import { useEffect, useRef, useState } from 'react'
import type { Programme, ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import { planBirdProgramme } from '../../workers/bird-client.ts'
import type { Progress } from '../../workers/messages.ts'
import type { BirdRecord } from '../use-bird-record.ts'

export interface Plan {
  /** The last that was worked out; of an earlier request while the next is under way. */
  readonly programme: Programme | null
  readonly isRunning: boolean
  readonly progress: Progress | null
  readonly error: Error | null
  readonly wasCancelled: boolean
  readonly cancel: () => void
  readonly again: () => void
}

type State = Pick<Plan, 'programme' | 'isRunning' | 'progress' | 'error' | 'wasCancelled'>

/** A slider that is being dragged asks when it rests. */
const REST_MS = 250

/** Plans in the worker whenever the record or the request has changed. */
export function usePlan(record: BirdRecord, request: ProgrammeRequest | null): Plan {
  const { place, marks, isLoading } = record
  const [state, setState] = useState<State>({
    programme: null,
    isRunning: false,
    progress: null,
    error: null,
    wasCancelled: false,
  })
  const [run, setRun] = useState(0)
  const stop = useRef(new AbortController())
  useEffect(() => {
    if (isLoading || !request) return
    void run
    const newer = new AbortController()
    stop.current = new AbortController()
    const change = (part: Partial<State>) => {
      if (!newer.signal.aborted) setState((before) => ({ ...before, ...part }))
    }
    const start = () => {
      change({ isRunning: true, error: null, wasCancelled: false })
      planBirdProgramme(place, marks, request, {
        signal: newer.signal,
        stop: stop.current.signal,
        onProgress: (progress) => change({ progress }),
      }).then(
        (programme) => change({ programme, isRunning: false, progress: null }),
        (error: Error) => change(endOf(error)),
      )
    }
    const timer = window.setTimeout(start, REST_MS)
    return () => {
      window.clearTimeout(timer)
      newer.abort()
    }
  }, [place, marks, isLoading, request, run])
  return {
    ...state,
    cancel: () => stop.current.abort(),
    again: () => setRun(run + 1),
  }
}

function endOf(error: Error): Partial<State> {
  const ended = { isRunning: false, progress: null }
  return error.name === 'AbortError' ? { ...ended, wasCancelled: true } : { ...ended, error }
}
