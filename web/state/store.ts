import { useSyncExternalStore } from 'react'

/** A value that screens share and are told about when it changes. */
export interface Store<Value> {
  readonly get: () => Value
  readonly set: (next: Value) => void
  readonly subscribe: (listener: () => void) => () => void
}

export function createStore<Value>(initial: Value): Store<Value> {
  let value = initial
  const listeners = new Set<() => void>()
  return {
    get: () => value,
    set: (next) => {
      if (Object.is(next, value)) return
      value = next
      for (const listener of [...listeners]) listener()
    },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

export function useStore<Value>(store: Store<Value>): Value {
  return useSyncExternalStore(store.subscribe, store.get)
}
