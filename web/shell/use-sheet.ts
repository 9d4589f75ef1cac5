import { useEffect, useState } from 'react'
import { useFullSheetWish } from '../state/sheet-height.ts'
import type { Snap } from '../ui/snap-heights.ts'

export interface PhoneSheet {
  readonly snap: Snap
  readonly setSnap: (snap: Snap) => void
  /** It takes the whole window: nothing else of the page is shown. */
  readonly isWhole: boolean
}

/** Height of a phone's sheet. A screen that is worked at raises it; from then on it is the person's. */
export function useSheet(): PhoneSheet {
  const [snap, setSnap] = useState<Snap>('half')
  const isWished = useFullSheetWish()
  useEffect(() => setSnap(isWished ? 'full' : 'half'), [isWished])
  return { snap, setSnap, isWhole: isWished && snap === 'full' }
}
