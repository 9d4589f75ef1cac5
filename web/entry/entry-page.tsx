import type { Me } from '#contract/account.ts'
import { wasSignOnRefused } from '../api/own-sign-on.ts'
import { arriveAtDesk } from '../state/arrive-at-desk.ts'
import { EntryHead } from './entry-head.tsx'
import { WaysIn } from './ways-in.tsx'
import './entry.css'

/** What stands in place of everything until somebody is signed in. */
export function EntryPage() {
  return (
    <main className="entry">
      <title>Sign in – Crossarm</title>
      <EntryHead />
      {wasSignOnRefused() && (
        <p className="state-note" role="alert">
          The sign-on did not let you in here. Only who was invited under the same email may come
          in; ask your administrator.
        </p>
      )}
      <WaysIn onEntered={(me: Me) => arriveAtDesk(me.roles)} />
    </main>
  )
}
