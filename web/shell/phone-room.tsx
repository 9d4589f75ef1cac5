import { Suspense, useEffect, useState } from 'react'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useSelection } from '../state/selection.ts'
import { useFullSheetWish } from '../state/sheet-height.ts'
import { Button } from '../ui/button.tsx'
import type { Snap } from '../ui/snap-heights.ts'
import { SnapSheet } from '../ui/snap-sheet.tsx'
import { LoadingNote } from '../ui/state-note.tsx'
import { useRoom } from '../ui/use-room.ts'
import { FeederMap } from './feeder-map.tsx'
import { ProfileStrip } from './profile/profile-strip.tsx'

export function PhoneRoom() {
  const { person } = useSelection()
  const { Desk, Strip = ProfileStrip } = PERSON_SCREENS[person]
  const [ref, room] = useRoom<HTMLDivElement>()
  const [snap, setSnap] = useState<Snap>('half')
  const [tab, setTab] = useState<'desk' | 'profile'>('desk')
  const isFullWished = useFullSheetWish()
  // Raised once, as the screen opens; from then on the person has it at the height that they like.
  useEffect(() => setSnap(isFullWished ? 'full' : 'half'), [isFullWished])
  const open = (next: 'desk' | 'profile') => {
    setTab(next)
    if (snap === 'low') setSnap('half')
  }
  const tabs = (
    <fieldset className="shell-tabs">
      <legend className="visually-hidden">Part of the sheet</legend>
      <Button isPressed={tab === 'desk'} onClick={() => open('desk')}>
        Desk
      </Button>
      <Button isPressed={tab === 'profile'} onClick={() => open('profile')}>
        Profile
      </Button>
    </fieldset>
  )
  return (
    <div className="shell-room" ref={ref}>
      <main className="shell-map" aria-label="Map">
        <FeederMap />
      </main>
      <SnapSheet label="Sheet" roomPx={room.heightPx} snap={snap} onSnap={setSnap} head={tabs}>
        <div id="desk" tabIndex={-1}>
          <Suspense fallback={<LoadingNote what="Opening the desk…" />}>
            {tab === 'desk' ? <Desk /> : <Strip />}
          </Suspense>
        </div>
      </SnapSheet>
    </div>
  )
}
