import { Suspense } from 'react'
import { PERSON_SCREENS } from '../person-screens.ts'
import { useSelection } from '../state/selection.ts'
import { LoadingNote } from '../ui/state-note.tsx'
import { DeskEdge } from './desk-edge.tsx'
import { FeederMap } from './feeder-map.tsx'
import { StripPanel } from './strip-panel.tsx'
import { useDeskWidth } from './use-desk-width.ts'

export function DesktopRoom() {
  const { person } = useSelection()
  const { Desk } = PERSON_SCREENS[person]
  const [widthPx, setWidthPx] = useDeskWidth()
  return (
    <div className="shell-room">
      <aside className="shell-desk" style={{ width: widthPx }} aria-label="Desk">
        <div id="desk" className="shell-desk-scroll" tabIndex={-1}>
          <Suspense fallback={<LoadingNote what="Opening the desk…" />}>
            <Desk />
          </Suspense>
        </div>
        <DeskEdge widthPx={widthPx} onWidth={setWidthPx} />
      </aside>
      <div className="shell-right">
        <main className="shell-map" aria-label="Map">
          <FeederMap />
        </main>
        <StripPanel />
      </div>
    </div>
  )
}
