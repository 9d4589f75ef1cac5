import { useSyncExternalStore } from 'react'

const EVERY_MS = 30_000

/** Milliseconds since 1970, anew every half minute. */
export function useNow(): number {
  return useSyncExternalStore(follow, roundedNow)
}

function follow(listener: () => void): () => void {
  const timer = window.setInterval(listener, EVERY_MS)
  return () => window.clearInterval(timer)
}

/** The same between two ticks, as a store must be; later than now, so that what just happened is past. */
const roundedNow = (): number => Math.ceil(Date.now() / EVERY_MS) * EVERY_MS
