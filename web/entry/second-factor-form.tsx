import { useEffect, useRef, useState } from 'react'
import { useEntering } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import type { Arrival } from './arrival.ts'

interface Props extends Arrival {
  readonly onBack: () => void
}

/** The second step of signing in. */
export function SecondFactorForm({ onEntered, onBack }: Props) {
  const { secondFactor } = useEntering(onEntered)
  const [code, setCode] = useState('')
  const input = useRef<HTMLInputElement>(null)
  useEffect(() => input.current?.focus(), [])
  const plain = code.replaceAll(/\s/g, '')
  return (
    <form
      className="stack"
      aria-label="Second factor"
      onSubmit={(event) => {
        event.preventDefault()
        secondFactor.mutate(plain)
      }}
    >
      <Field
        label="Code of your authenticator"
        hint="Six digits. Authenticator lost? One of the backup codes does as well, once."
      >
        {(control) => (
          <input
            ref={input}
            className="input"
            autoComplete="one-time-code"
            autoCapitalize="off"
            spellCheck={false}
            value={code}
            onChange={({ target }) => setCode(target.value)}
            {...control}
          />
        )}
      </Field>
      {secondFactor.isError && <ErrorNote title="Not signed in" error={secondFactor.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={secondFactor.isPending || plain.length < 6}>
          {secondFactor.isPending ? 'Signing in…' : 'Finish signing in'}
        </Button>
        <Button onClick={onBack}>Back to email and password</Button>
      </div>
    </form>
  )
}
