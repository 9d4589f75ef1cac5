import type { z } from 'zod'
import { shareValue, useShared } from '../../device/shared-value.ts'

export interface KeptOnDevice<Value> {
  readonly get: (key: string) => Value | null
  /** Null lets go of it. */
  readonly keep: (key: string, value: Value | null) => void
  readonly use: (key: string) => Value | null
}

/**
 * Small things of one kind that outlive a reload and the closing of the browser, one entry of the
 * local storage each. Where the browser refuses to keep them they live as long as the page.
 *
 * @param storedAs first part of the name in the storage
 */
export function keptOnDevice<Value>(
  storedAs: string,
  schema: z.ZodType<Value>,
): KeptOnDevice<Value> {
  const held = new Map<string, Value | null>()
  const changes = shareValue(0)
  const get = (key: string): Value | null => {
    const known = held.get(key)
    if (known !== undefined) return known
    const read = readKept(`${storedAs}:${key}`, schema)
    held.set(key, read)
    return read
  }
  return {
    get,
    keep: (key, value) => {
      held.set(key, value)
      writeKept(`${storedAs}:${key}`, value)
      changes.set(changes.get() + 1)
    },
    use: (key) => {
      useShared(changes)
      return get(key)
    },
  }
}

/** What no longer fits its schema is let go. */
function readKept<Value>(name: string, schema: z.ZodType<Value>): Value | null {
  try {
    const text = window.localStorage.getItem(name)
    return text === null ? null : schema.parse(JSON.parse(text))
  } catch {
    return null
  }
}

function writeKept(name: string, value: unknown): void {
  try {
    if (value === null) window.localStorage.removeItem(name)
    else window.localStorage.setItem(name, JSON.stringify(value))
  } catch {
    // The storage is full or closed to pages: then it lives as long as this page.
  }
}
