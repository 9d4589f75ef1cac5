import { useMe } from '../api/account.ts'
import { useSettings } from '../api/feeders.ts'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import type { Arrival } from './arrival.ts'
import { DemoWays } from './demo-ways.tsx'
import { FirstAdministrator } from './first-administrator.tsx'
import { OwnSignOn } from './own-sign-on.tsx'
import { PasskeySignIn } from './passkey-sign-in.tsx'
import { SignInForm } from './sign-in-form.tsx'
import './entry.css'

/** Everything by which this server lets people in. */
export function WaysIn({ onEntered }: Arrival) {
  const settings = useSettings()
  const email = useMe().data?.email
  if (settings.isError) {
    return (
      <ErrorNote
        title="The server could not be asked how to sign in."
        error={settings.error}
        onRetry={() => void settings.refetch()}
      />
    )
  }
  if (!settings.data) return <LoadingNote what="Asking the server how to sign in…" />
  const { isDemo, ownSignOn, hasPasskeys, needsAdministrator } = settings.data
  const withAccount = (
    <div className="stack">
      {ownSignOn !== null && <OwnSignOn name={ownSignOn} />}
      <SignInForm email={email} onEntered={onEntered} />
      {hasPasskeys && <PasskeySignIn onEntered={onEntered} />}
    </div>
  )
  if (!isDemo) {
    return (
      <section className="stack" aria-labelledby="sign-in">
        <h2 id="sign-in">Sign in</h2>
        {needsAdministrator && <FirstAdministrator />}
        {withAccount}
      </section>
    )
  }
  return (
    <>
      <DemoWays onEntered={onEntered} />
      <details className="entry-fold">
        <summary>Sign in with an account of your own</summary>
        {withAccount}
      </details>
    </>
  )
}
