import { createStore, useStore } from '../state/store.ts'
import { localToday } from '../state/today.ts'

/** Day for which nests are shown in or out of season; today until another is chosen. */
const day = createStore(localToday())

export const chooseSeasonDay = day.set

export function useSeasonDay(): string {
  return useStore(day)
}
