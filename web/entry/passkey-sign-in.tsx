import { usePasskeySignIn } from '../api/passkeys.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import type { Arrival } from './arrival.ts'

export function PasskeySignIn({ onEntered }: Arrival) {
  const signIn = usePasskeySignIn(onEntered)
  return (
    <>
      <div className="row">
        <Button disabled={signIn.isPending} onClick={() => signIn.mutate()}>
          {signIn.isPending ? 'Waiting for the passkey…' : 'Sign in with a passkey'}
        </Button>
      </div>
      {signIn.isError && <ErrorNote title="Not signed in" error={signIn.error} />}
    </>
  )
}
