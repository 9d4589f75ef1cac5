import { shareValue, useShared } from '../device/shared-value.ts'
import { localToday } from '../state/today.ts'

/** Day for which nests are shown in or out of season; today until another is chosen. */
const day = shareValue(localToday())

export const chooseSeasonDay = day.set

export function useSeasonDay(): string {
  return useShared(day)
}
