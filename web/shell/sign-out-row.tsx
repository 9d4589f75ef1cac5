import { useState } from 'react'
import { keptOfPerson, useSignOut } from '../api/account.ts'
import { useOutbox } from '../api/outbox.ts'
import { draftsInTab } from '../record/kept-drafts.ts'
import { counted } from '../state/format.ts'
import { Button } from '../ui/button.tsx'

/** The way out; where something would be lost by it, that is said first. */
export function SignOutRow({ isDemo }: { readonly isDemo: boolean }) {
  const signOut = useSignOut()
  const unsent = useOutbox().filter(
    ({ state, setAsideAt }) => state !== 'kept' && setAsideAt === undefined,
  ).length
  const [lost, setLost] = useState<readonly string[] | null>(null)
  const words = isDemo ? 'Leave, or enter as another' : 'Sign out'
  const begin = () => {
    const going = lostBySigningOut()
    if (going.length === 0 && unsent === 0) signOut.mutate()
    else setLost(going)
  }
  return (
    <>
      {lost === null ? (
        <Button look="plain" disabled={signOut.isPending} onClick={begin}>
          {words}
        </Button>
      ) : (
        <section className="account-menu-leaving" aria-label={words}>
          {unsent > 0 && (
            <p role="status">
              {counted(unsent, 'thing')} that you entered {unsent === 1 ? 'is' : 'are'} not with the
              server yet. {unsent === 1 ? 'It stays' : 'They stay'} on this device, unseen by
              others, until you sign in here again.
            </p>
          )}
          {lost.length > 0 && (
            <>
              <p role="status">Signing out takes off this device:</p>
              <ul>
                {lost.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </>
          )}
          <Button look="danger" disabled={signOut.isPending} onClick={() => signOut.mutate()}>
            {isDemo ? 'Leave all the same' : 'Sign out all the same'}
          </Button>
          <Button onClick={() => setLost(null)}>Stay</Button>
        </section>
      )}
      {signOut.isError && <p role="alert">Not signed out: {signOut.error.message}</p>}
    </>
  )
}

function lostBySigningOut(): string[] {
  const forms = draftsInTab()
  return [
    ...keptOfPerson(),
    ...(forms > 0 ? [`${counted(forms, 'form')} filled in and not saved`] : []),
  ]
}
