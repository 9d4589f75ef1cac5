import { useSyncExternalStore } from 'react'

/** A value that several parts of the page share, and are told about when it changes. */
export interface SharedValue<Value> {
  readonly get: () => Value
  readonly set: (next: Value) => void
  readonly follow: (listener: () => void) => () => void
}

export function shareValue<Value>(initial: Value): SharedValue<Value> {
  let value = initial
  const listeners = new Set<() => void>()
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return
      value = next
      for (const listener of [...listeners]) listener()
    },
    follow: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

export function useShared<Value>({ follow, get }: SharedValue<Value>): Value {
  return useSyncExternalStore(follow, get)
}
