import { useEffect } from 'react'
import { shareValue, useShared } from '../device/shared-value.ts'

/** How many screens stand open that want the whole phone. */
const wishes = shareValue(0)

/** Whether the sheet of a phone should stand at its full height now. */
export function useFullSheetWish(): boolean {
  return useShared(wishes) > 0
}

/**
 * For a screen that is worked at rather than looked at: gives it the whole window of a phone as it
 * opens, until the person takes the sheet down.
 *
 * @param isWished false for a screen that wants it only at times, as while something is typed
 */
export function useFullSheet(isWished = true): void {
  useEffect(() => {
    if (!isWished) return
    wishes.set(wishes.get() + 1)
    return () => wishes.set(wishes.get() - 1)
  }, [isWished])
}
