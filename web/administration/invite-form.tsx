import { type FormEvent, useState } from 'react'
import { z } from 'zod'
import { Role } from '#contract/actor.ts'
import { type Invited, InvitePersonBody } from '#contract/people.ts'
import { usePeopleChanges } from '../api/people.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import { ArrivingTitle } from '../ui/arriving-title.tsx'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { RoleBoxes } from './role-boxes.tsx'

const Draft = z.object({ name: z.string(), email: z.string(), roles: z.array(Role) })
const drafts = keptDrafts('crossarm.invite-drafts', Draft)
const KEY = 'new'
const EMPTY: z.infer<typeof Draft> = { name: '', email: '', roles: [] }

interface Props {
  readonly onInvited: (invited: Invited) => void
  readonly onGiveUp: () => void
}

/** Invites a person; what is typed is kept until they are invited or it is given up. */
export function InviteForm({ onInvited, onGiveUp }: Props) {
  const { invite } = usePeopleChanges()
  const draft = drafts.use(KEY) ?? EMPTY
  const [isTried, setIsTried] = useState(false)
  const type = (change: Partial<typeof draft>) => drafts.keep(KEY, { ...draft, ...change })
  const body = InvitePersonBody.safeParse({ ...draft, email: draft.email.trim() })
  const wrong = new Set(isTried ? body.error?.issues.map(({ path }) => path[0]) : [])
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (!body.success) return
    invite.mutate(body.data, {
      onSuccess: (invited) => {
        drafts.keep(KEY, null)
        onInvited(invited)
      },
    })
  }
  return (
    <form className="stack" aria-label="Invite a person" noValidate onSubmit={submit}>
      <ArrivingTitle of="invite">Invite a person</ArrivingTitle>
      <Field label="Name" fault={wrong.has('name') ? 'Give a name of up to 80 characters.' : null}>
        {(control) => (
          <input
            className="input"
            autoComplete="off"
            value={draft.name}
            onChange={({ target }) => type({ name: target.value })}
            {...control}
          />
        )}
      </Field>
      <Field
        label="Email"
        hint="They sign in with it. Nothing is sent there; you hand over a link."
        fault={wrong.has('email') ? 'Give an email address, as pat@your-utility.example.' : null}
      >
        {(control) => (
          <input
            className="input"
            type="email"
            autoComplete="off"
            value={draft.email}
            onChange={({ target }) => type({ email: target.value })}
            {...control}
          />
        )}
      </Field>
      <RoleBoxes
        chosen={draft.roles}
        fault={wrong.has('roles') ? 'Choose at least one role.' : null}
        onChoose={(roles) => type({ roles })}
      />
      {invite.isError && (
        <ErrorNote title="Not invited; what you typed is still here" error={invite.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={invite.isPending}>
          {invite.isPending ? 'Inviting…' : 'Invite, and show the link'}
        </Button>
        <Button
          onClick={() => {
            drafts.keep(KEY, null)
            onGiveUp()
          }}
        >
          Give up
        </Button>
      </div>
    </form>
  )
}
