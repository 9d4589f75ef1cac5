import { LiveLine } from '../record/live-line.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { showWorking, useShownWorking } from '../state/working.ts'
import { PHONE, useMedia } from '../ui/use-media.ts'
import { WorkingSheet } from '../ui/working-sheet.tsx'
import { DesktopRoom } from './desktop-room.tsx'
import { PhoneRoom } from './phone-room.tsx'
import { TopBar } from './top-bar.tsx'
import { useSheet } from './use-sheet.ts'
import './shell.css'

/** The whole page around one open feeder. */
export function Shell() {
  const { person } = useSelection()
  const { feeder } = useFeeder()
  const isPhone = useMedia(PHONE)
  const working = useShownWorking()
  const sheet = useSheet()
  return (
    <div className="shell" data-person={person}>
      <title>{`${feeder.header.name} – Crossarm`}</title>
      <a className="shell-skip" href="#desk">
        Skip to the desk
      </a>
      {!(isPhone && sheet.isWhole) && <TopBar />}
      <LiveLine />
      {isPhone ? <PhoneRoom sheet={sheet} /> : <DesktopRoom />}
      {working && <WorkingSheet {...working} onClose={() => showWorking(null)} />}
    </div>
  )
}
