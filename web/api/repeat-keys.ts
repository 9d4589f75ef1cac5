import type { Route } from '#contract/route.ts'
import { randomId } from '../device/random-id.ts'

interface OpenWrite {
  readonly key: string
  readonly sentAtMs: number
}

/** Long enough for someone to press again after a lost connection, too short for a new intention. */
const SAME_INTENTION_MS = 10 * 60_000

/** Writes that were sent but not answered yet, by what was sent. */
const open = new Map<string, OpenWrite>()

/**
 * Key under which a write is sent. As long as no answer came, the same write keeps its key, also
 * where the person presses the button again.
 */
export function keyOfWrite(route: Route, input: unknown, nowMs = Date.now()): string {
  const text = textOf(route, input)
  const found = open.get(text)
  if (found && nowMs - found.sentAtMs < SAME_INTENTION_MS) return found.key
  const key = randomId()
  open.set(text, { key, sentAtMs: nowMs })
  return key
}

/** To be called once there is an answer: the next write like it is another one. */
export function letGoOfKey(route: Route, input: unknown): void {
  open.delete(textOf(route, input))
}

function textOf({ method, path }: Route, input: unknown): string {
  const parts = JSON.stringify(input, (_, value: unknown) =>
    value instanceof File ? [value.name, value.size, value.lastModified] : value,
  )
  return `${method} ${path} ${parts}`
}
