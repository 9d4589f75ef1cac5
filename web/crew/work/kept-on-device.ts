import type { z } from 'zod'
import { type KeptKind, keepText, keptText } from '../../device/kept-values.ts'
import { personHere } from '../../device/person.ts'
import { shareValue, useShared } from '../../device/shared-value.ts'

export interface KeptOnDevice<Value> {
  readonly get: (key: string) => Value | null
  /** Null lets go of it. */
  readonly keep: (key: string, value: Value | null) => void
  readonly use: (key: string) => Value | null
}

/**
 * Small things of one kind that outlive a reload and the closing of the browser, until the person
 * signs out; nobody else on the device sees them. Where the browser refuses to keep them they live
 * as long as the page.
 */
export function keptOnDevice<Value>(kind: KeptKind, schema: z.ZodType<Value>): KeptOnDevice<Value> {
  const held = new Map<string, Value | null>()
  const changes = shareValue(0)
  const get = (key: string): Value | null => {
    const personId = personHere.get()
    if (personId === null) return null
    const name = `${personId}:${key}`
    const known = held.get(name)
    if (known !== undefined) return known
    const read = readKept(keptText(personId, kind, key), schema)
    held.set(name, read)
    return read
  }
  return {
    get,
    keep: (key, value) => {
      const personId = personHere.get()
      if (personId === null) return
      held.set(`${personId}:${key}`, value)
      keepText(personId, kind, key, value === null ? null : JSON.stringify(value))
      changes.set(changes.get() + 1)
    },
    use: (key) => {
      useShared(changes)
      useShared(personHere)
      return get(key)
    },
  }
}

/** What no longer fits its schema is let go. */
function readKept<Value>(text: string | null, schema: z.ZodType<Value>): Value | null {
  try {
    return text === null ? null : schema.parse(JSON.parse(text))
  } catch {
    return null
  }
}
