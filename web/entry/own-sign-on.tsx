import { useMutation } from '@tanstack/react-query'
import { startOwnSignOn } from '../api/own-sign-on.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'

/** Leads to the utility's own sign-on, which leads back to this address. */
export function OwnSignOn({ name }: { readonly name: string }) {
  const start = useMutation({
    mutationFn: startOwnSignOn,
    onSuccess: (address) => window.location.assign(address),
  })
  return (
    <>
      <div className="row">
        <Button look="main" disabled={start.isPending} onClick={() => start.mutate()}>
          Sign in with {name}
        </Button>
      </div>
      {start.isError && <ErrorNote title="The sign-on cannot be reached" error={start.error} />}
    </>
  )
}
