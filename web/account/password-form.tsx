import { type FormEvent, useState } from 'react'
import { useChangePassword } from '../api/account.ts'
import { Button } from '../ui/button.tsx'
import { PasswordPair, usePasswordPair } from '../ui/password-pair.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { CurrentPassword } from './current-password.tsx'

/** Folds out to change the password; all other sessions end with the old one. */
export function PasswordForm() {
  const [isOpen, setIsOpen] = useState(false)
  const [isChanged, setIsChanged] = useState(false)
  return (
    <section className="stack" aria-labelledby="password-form">
      <h3 id="password-form">Password</h3>
      {isChanged && <p role="status">Changed. Your other sessions were signed out.</p>}
      {isOpen ? (
        <ChangeForm
          onDone={(isDone) => {
            setIsOpen(false)
            setIsChanged(isDone)
          }}
        />
      ) : (
        <div className="row">
          <Button onClick={() => setIsOpen(true)}>Change the password…</Button>
        </div>
      )}
    </section>
  )
}

function ChangeForm({ onDone }: { readonly onDone: (isDone: boolean) => void }) {
  const change = useChangePassword()
  const pair = usePasswordPair()
  const [current, setCurrent] = useState('')
  const [isTried, setIsTried] = useState(false)
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (current === '' || pair.fault) return
    change.mutate({ current, next: pair.password }, { onSuccess: () => onDone(true) })
  }
  return (
    <form className="stack" aria-label="Change the password" noValidate onSubmit={submit}>
      <CurrentPassword value={current} isMissing={isTried && current === ''} onType={setCurrent} />
      <PasswordPair pair={pair} areFaultsShown={isTried} />
      {change.isError && <ErrorNote title="Not changed" error={change.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={change.isPending}>
          {change.isPending ? 'Changing…' : 'Change the password'}
        </Button>
        <Button onClick={() => onDone(false)}>Give up</Button>
      </div>
    </form>
  )
}
