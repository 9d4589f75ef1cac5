import { type FormEvent, useState } from 'react'
import { Email, type InvitationWords } from '#contract/account.ts'
import { useEntering, useInvitation } from '../api/account.ts'
import { momentInWords } from '../record/moment-in-words.ts'
import { rolesInWords } from '../record/roles-in-words.ts'
import { arriveAtDesk } from '../state/arrive-at-desk.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { PasswordPair, usePasswordPair } from '../ui/password-pair.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { EntryHead } from './entry-head.tsx'
import './entry.css'

interface Props {
  /** From the link that an administrator handed over. */
  readonly token: string
  readonly onDone: () => void
}

/** Where an invited person, or one who lost their password, sets a name and a password. */
export function InvitationPage({ token, onDone }: Props) {
  const invitation = useInvitation(token)
  return (
    <main className="entry">
      <title>Invitation – Crossarm</title>
      <EntryHead />
      {invitation.isPending && <LoadingNote what="Reading the invitation…" />}
      {invitation.isError && (
        <>
          <ErrorNote title="This invitation cannot be used" error={invitation.error} />
          <EmptyNote what="A link works once and for a limited time. Ask your administrator for a new one, or sign in if you have used it already.">
            <Button onClick={onDone}>To the sign-in</Button>
          </EmptyNote>
        </>
      )}
      {invitation.data && <AcceptForm token={token} words={invitation.data} onDone={onDone} />}
    </main>
  )
}

interface FormProps extends Props {
  readonly words: InvitationWords
}

function AcceptForm({ token, words, onDone }: FormProps) {
  const { accept } = useEntering((me) => {
    onDone()
    arriveAtDesk(me.roles)
  })
  const [name, setName] = useState(words.name)
  const [email, setEmail] = useState('')
  const pair = usePasswordPair()
  const [isTried, setIsTried] = useState(false)
  const isEmailMissing = words.email === null && !Email.safeParse(email.trim()).success
  const nameFault = isTried && name.trim() === '' ? 'Give the name that others will see.' : null
  const emailFault =
    isTried && isEmailMissing ? 'Give an email, as pat@your-utility.example.' : null
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (name.trim() === '' || isEmailMissing || pair.fault) return
    const own = words.email === null ? { email: email.trim() } : {}
    accept.mutate({ token, name: name.trim(), password: pair.password, ...own })
  }
  return (
    <form className="stack" aria-label="Accept the invitation" noValidate onSubmit={submit}>
      <h2>Set your name and password</h2>
      <p>
        For {words.email ?? 'the first person here'}, as {rolesInWords(words.roles)}. The link works
        once, until <time dateTime={words.endsAt}>{momentInWords(words.endsAt)}</time>.
      </p>
      {words.email === null ? (
        <Field label="Your email" hint="You will sign in with it." fault={emailFault}>
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
      ) : (
        <input type="email" autoComplete="username" value={words.email} readOnly hidden />
      )}
      <Field label="Your name" hint="Stands beside what you change." fault={nameFault}>
        {(control) => (
          <input
            className="input"
            autoComplete="name"
            value={name}
            onChange={({ target }) => setName(target.value)}
            {...control}
          />
        )}
      </Field>
      <PasswordPair pair={pair} areFaultsShown={isTried} />
      {accept.isError && (
        <ErrorNote title="Not accepted; what you typed is still here" error={accept.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={accept.isPending}>
          {accept.isPending ? 'Setting…' : 'Set and enter'}
        </Button>
      </div>
    </form>
  )
}
