import { useState } from 'react'
import { useEntering } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import type { Arrival } from './arrival.ts'
import { SecondFactorForm } from './second-factor-form.tsx'

interface Props extends Arrival {
  /** Known where the same person is to sign in again. */
  readonly email?: string | null
}

/** Email and password, then the code where the person has a second factor. */
export function SignInForm({ email: known, onEntered }: Props) {
  const { signIn } = useEntering(onEntered)
  const [email, setEmail] = useState(known ?? '')
  const [password, setPassword] = useState('')
  const [isCodeNeeded, setIsCodeNeeded] = useState(false)
  if (isCodeNeeded) {
    return <SecondFactorForm onEntered={onEntered} onBack={() => setIsCodeNeeded(false)} />
  }
  const isEmpty = email.trim() === '' || password === ''
  const submit = () =>
    signIn.mutate(
      { email: email.trim(), password },
      { onSuccess: ({ state }) => setIsCodeNeeded(state === 'second-factor-needed') },
    )
  return (
    <form
      className="stack"
      aria-label="Sign in"
      onSubmit={(event) => {
        event.preventDefault()
        submit()
      }}
    >
      <Field label="Email">
        {(control) => (
          <input
            className="input"
            type="email"
            autoComplete="username"
            value={email}
            onChange={({ target }) => setEmail(target.value)}
            {...control}
          />
        )}
      </Field>
      <Field label="Password">
        {(control) => (
          <input
            className="input"
            type="password"
            autoComplete="current-password"
            value={password}
            onChange={({ target }) => setPassword(target.value)}
            {...control}
          />
        )}
      </Field>
      {signIn.isError && <ErrorNote title="Not signed in" error={signIn.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={signIn.isPending || isEmpty}>
          {signIn.isPending ? 'Signing in…' : 'Sign in'}
        </Button>
      </div>
    </form>
  )
}
