import { createStore, useStore } from '../state/store.ts'

export const MONTH_NAMES = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const

/** Month for which nests are shown in or out of season, 1 to 12; the present one until another is chosen. */
const month = createStore(new Date().getMonth() + 1)

export const chooseSeasonMonth = month.set

export function useSeasonMonth(): number {
  return useStore(month)
}
