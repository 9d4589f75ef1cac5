import { createStore, useStore } from './store.ts'

export type SheetName = 'account' | 'people' | 'work'

const open = createStore<SheetName | null>(null)

/** Opens one of the sheets over the page; null closes it. */
export const openSheet = open.set

export function useOpenSheet(): SheetName | null {
  return useStore(open)
}
