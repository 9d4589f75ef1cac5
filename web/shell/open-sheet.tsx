import { type ComponentType, lazy, Suspense } from 'react'
import { openSheet, type SheetName, useOpenSheet } from '../state/sheet.ts'

type Sheet = ComponentType<{ readonly onClose: () => void }>

/** None of them is part of the page's first load. */
const SHEETS: Readonly<Record<SheetName, Sheet>> = {
  account: lazy(async () => ({
    default: (await import('../account/account-sheet.tsx')).AccountSheet,
  })),
  people: lazy(async () => ({
    default: (await import('../administration/people-sheet.tsx')).PeopleSheet,
  })),
  work: lazy(async () => ({
    default: (await import('../long-work/work-sheet.tsx')).WorkSheet,
  })),
}

/** The sheet that is open over the page. */
export function OpenSheet() {
  const open = useOpenSheet()
  if (open === null) return null
  const Open = SHEETS[open]
  return (
    <Suspense>
      <Open onClose={() => openSheet(null)} />
    </Suspense>
  )
}
