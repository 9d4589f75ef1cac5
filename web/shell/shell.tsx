import { lazy, Suspense } from 'react'
import { LiveLine } from '../record/live-line.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { useSelection } from '../state/selection.ts'
import { showWorking, useShownWorking } from '../state/working.ts'
import { PHONE, useMedia } from '../ui/use-media.ts'
import { WorkingSheet } from '../ui/working-sheet.tsx'
import { DesktopRoom } from './desktop-room.tsx'
import { PhoneRoom } from './phone-room.tsx'
import { openSheet, useOpenSheet } from './sheet.ts'
import { TopBar } from './top-bar.tsx'
import './shell.css'

const AccountSheet = lazy(async () => ({
  default: (await import('../account/account-sheet.tsx')).AccountSheet,
}))
const PeopleSheet = lazy(async () => ({
  default: (await import('../administration/people-sheet.tsx')).PeopleSheet,
}))

/** The whole page around one open feeder. */
export function Shell() {
  const { person } = useSelection()
  const { feeder } = useFeeder()
  const isPhone = useMedia(PHONE)
  const working = useShownWorking()
  return (
    <div className="shell" data-person={person}>
      <title>{`${feeder.header.name} – Crossarm`}</title>
      <a className="shell-skip" href="#desk">
        Skip to the desk
      </a>
      <TopBar />
      <LiveLine />
      {isPhone ? <PhoneRoom /> : <DesktopRoom />}
      {working && <WorkingSheet {...working} onClose={() => showWorking(null)} />}
      <OpenSheet />
    </div>
  )
}

/** Account or people; neither is part of the page's first load. */
function OpenSheet() {
  const open = useOpenSheet()
  const close = () => openSheet(null)
  if (open === null) return null
  return (
    <Suspense>
      {open === 'account' ? <AccountSheet onClose={close} /> : <PeopleSheet onClose={close} />}
    </Suspense>
  )
}
