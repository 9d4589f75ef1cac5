import { shareValue, useShared } from '../../device/shared-value.ts'
import { NO_FILTER, type PoleFilter } from './pole-filter.ts'

export interface ListState {
  readonly filter: PoleFilter
  readonly shown: number
  /** Pole that was opened last; going back leads to its row. */
  readonly lastPole: string | null
}

/** Rows drawn at first, and added by each step. */
export const PAGE = 40

/** What was chosen and typed above the list, kept while a pole is open. */
const listState = shareValue<ListState>({ filter: NO_FILTER, shown: PAGE, lastPole: null })

export function changeList(change: Partial<ListState>): void {
  listState.set({ ...listState.get(), ...change })
}

/** Changes some of the filter, and shows the list from its beginning. */
export function changeFilter(change: Partial<PoleFilter>): void {
  const before = listState.get()
  listState.set({ ...before, filter: { ...before.filter, ...change }, shown: PAGE })
}

export function useListState(): ListState {
  return useShared(listState)
}
