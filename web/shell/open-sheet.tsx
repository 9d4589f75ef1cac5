import { lazy, Suspense } from 'react'
import { openSheet, useOpenSheet } from './sheet.ts'

const AccountSheet = lazy(async () => ({
  default: (await import('../account/account-sheet.tsx')).AccountSheet,
}))
const PeopleSheet = lazy(async () => ({
  default: (await import('../administration/people-sheet.tsx')).PeopleSheet,
}))

/** Account or people; neither is part of the page's first load. */
export function OpenSheet() {
  const open = useOpenSheet()
  const close = () => openSheet(null)
  if (open === null) return null
  return (
    <Suspense>
      {open === 'account' ? <AccountSheet onClose={close} /> : <PeopleSheet onClose={close} />}
    </Suspense>
  )
}
