import { useSyncExternalStore } from 'react'
import { buildRequest } from '#contract/build-request.ts'
import { routes } from '#contract/routes.ts'
import { Ready } from '#contract/service.ts'
import { shareValue } from './shared-value.ts'

export interface ConnectionState {
  /** Whether the server answered when it was asked last. */
  readonly isHere: boolean
  /** Age of the oldest copy that is shown in place of an answer; null where none is. */
  readonly copyFrom: string | null
  /** How far the device's clock is ahead of the server's; null before that is known. */
  readonly clockSkewMs: number | null
}

export const connection = shareValue<ConnectionState>({
  isHere: true,
  copyFrom: null,
  clockSkewMs: null,
})

/** Whether the server answered when it was asked last; for screens that need no more. */
export function useIsServerHere(): boolean {
  return useSyncExternalStore(connection.follow, () => connection.get().isHere)
}

/** A server that does not say anything for so long is away. */
const PROBE_WITHIN_MS = 4_000
const FIRST_PAUSE_MS = 1_000
const LONGEST_PAUSE_MS = 30_000
/** A server that was here for so long is asked soon again when it goes away. */
const STEADY_MS = 10_000

/** Only seconds stand in the Date header (RFC 9110, 6.6.1), so half of one lies between. */
const HALF_A_SECOND_MS = 500
/** An answer that took longer says too little about clocks. */
const QUICK_MS = 2_000
/** Differences below this come from the way of the answers, not from the clocks. */
const SAME_SKEW_MS = 2_000

let pauseMs = FIRST_PAUSE_MS
let hereSinceMs = 0
let timer: ReturnType<typeof setTimeout> | undefined
let probing: Promise<boolean> | null = null
const backListeners = new Set<() => void>()

/** Calls each time the server answers again after it was away. */
export function onServerBack(listener: () => void): () => void {
  backListeners.add(listener)
  return () => backListeners.delete(listener)
}

/** Says that an answer of the server came in, and compares clocks by it. */
export function noteAnswer(headers: Pick<Headers, 'get'>, sentAtMs: number): void {
  const nowMs = Date.now()
  const skewMs = clockSkewMs(headers.get('date'), sentAtMs, nowMs)
  const before = connection.get()
  if (skewMs !== null && isOther(skewMs, before.clockSkewMs)) {
    connection.set({ ...before, clockSkewMs: skewMs })
  }
  if (!before.isHere) comeBack(nowMs)
}

/** Says that no answer came; the server is asked again by itself, after growing pauses. */
export function noteNoAnswer(): void {
  const before = connection.get()
  if (before.isHere) {
    if (Date.now() - hereSinceMs > STEADY_MS) pauseMs = FIRST_PAUSE_MS
    connection.set({ ...before, isHere: false })
  }
  if (timer === undefined && !probing) askLater()
}

/** Says that a copy is shown in place of an answer. */
export function noteCopyShown(keptAt: string): void {
  const before = connection.get()
  if (before.copyFrom !== null && before.copyFrom <= keptAt) return
  connection.set({ ...before, copyFrom: keptAt })
}

/** Says that what is shown came from the server again. */
export function noteCopiesReplaced(): void {
  connection.set({ ...connection.get(), copyFrom: null })
}

/** Asks at once whether the server is there; one question at a time. */
export function askWhetherHere(): Promise<boolean> {
  clearTimeout(timer)
  timer = undefined
  probing ??= probe().finally(() => {
    probing = null
    if (!connection.get().isHere) askLater()
  })
  return probing
}

/**
 * @param date as the server wrote it
 * @returns how far the device's clock is ahead, to about half a second; null where the answer does not tell
 */
export function clockSkewMs(
  date: string | null,
  sentAtMs: number,
  receivedAtMs: number,
): number | null {
  const serverMs = Date.parse(date ?? '')
  if (Number.isNaN(serverMs) || receivedAtMs - sentAtMs > QUICK_MS) return null
  const deviceMs = (sentAtMs + receivedAtMs) / 2
  return Math.round(deviceMs - (serverMs + HALF_A_SECOND_MS))
}

function isOther(skewMs: number, knownMs: number | null): boolean {
  return knownMs === null || Math.abs(skewMs - knownMs) > SAME_SKEW_MS
}

async function probe(): Promise<boolean> {
  const sentAtMs = Date.now()
  const { path } = buildRequest(routes.getReady, {})
  try {
    const answer = await fetch(path, {
      signal: AbortSignal.timeout(PROBE_WITHIN_MS),
      cache: 'no-store',
    })
    if (!answer.ok) throw new Error(`Expected 200, got ${answer.status}.`)
    // What lies between, as the sign-in page of a network, also answers.
    Ready.parse(await answer.json())
    noteAnswer(answer.headers, sentAtMs)
    return true
  } catch {
    noteNoAnswer()
    return false
  }
}

function askLater(): void {
  timer = setTimeout(() => void askWhetherHere(), pauseMs)
  pauseMs = Math.min(pauseMs * 2, LONGEST_PAUSE_MS)
}

function comeBack(nowMs: number): void {
  hereSinceMs = nowMs
  clearTimeout(timer)
  timer = undefined
  connection.set({ ...connection.get(), isHere: true })
  for (const listener of [...backListeners]) listener()
}
