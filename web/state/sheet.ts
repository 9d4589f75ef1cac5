import { shareValue, useShared } from '../device/shared-value.ts'

export type SheetName = 'account' | 'people' | 'work'

const open = shareValue<SheetName | null>(null)

/** Opens one of the sheets over the page; null closes it. */
export const openSheet = open.set

export function useOpenSheet(): SheetName | null {
  return useShared(open)
}
