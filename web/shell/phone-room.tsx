import { Suspense, useState } from 'react'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { SnapSheet } from '../ui/snap-sheet.tsx'
import { LoadingNote } from '../ui/state-note.tsx'
import { useRoom } from '../ui/use-room.ts'
import { FeederMap } from './feeder-map.tsx'
import { ProfileStrip } from './profile/profile-strip.tsx'
import type { PhoneSheet } from './use-sheet.ts'

/** The map with the sheet of the desk over it; a screen that is worked at stands there alone. */
export function PhoneRoom({ sheet }: { readonly sheet: PhoneSheet }) {
  const { snap, setSnap, isWhole } = sheet
  const { person } = useSelection()
  const { Desk, Strip = ProfileStrip } = PERSON_SCREENS[person]
  const [ref, room] = useRoom<HTMLDivElement>()
  const [tab, setTab] = useState<'desk' | 'profile'>('desk')
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
      <main className="shell-map" aria-label="Map" inert={isWhole}>
        <FeederMap />
      </main>
      <SnapSheet
        label="Sheet"
        roomPx={room.heightPx}
        snap={snap}
        isWhole={isWhole}
        onSnap={setSnap}
        head={isWhole ? null : tabs}
      >
        <div id="desk" tabIndex={-1}>
          <Suspense fallback={<LoadingNote what="Opening the desk…" />}>
            {tab === 'desk' ? <Desk /> : <Strip />}
          </Suspense>
        </div>
      </SnapSheet>
    </div>
  )
}
