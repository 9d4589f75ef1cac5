import { type FormEvent, useState } from 'react'
import { ROLES, type Role } from '#contract/actor.ts'
import { MakeTokenBody, type TokenMade } from '#contract/people.ts'
import { type Right, rightsOf } from '#contract/rights.ts'
import { useTokenChanges } from '../api/tokens.ts'
import { ROLE_WORDS } from '../record/role-words.ts'
import { ArrivingTitle } from '../ui/arriving-title.tsx'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { CheckBoxes } from './check-boxes.tsx'

const DEFAULT_DAYS = '90'
/** A machine has no account to look after. */
const OWN_ACCOUNT: Right = 'use an account of one’s own'

interface Props {
  readonly onMade: (made: TokenMade) => void
  readonly onGiveUp: () => void
}

/** Makes a token: for what, as which role, with which of its rights, until when. */
export function TokenForm({ onMade, onGiveUp }: Props) {
  const { make } = useTokenChanges()
  const [name, setName] = useState('')
  const [role, setRole] = useState<Role>('reader')
  const [rights, setRights] = useState<readonly Right[]>([])
  const [days, setDays] = useState(DEFAULT_DAYS)
  const [isTried, setIsTried] = useState(false)
  const offered = rightsOf({ role }).filter((right) => right !== OWN_ACCOUNT)
  const chosen = offered.filter((right) => rights.includes(right))
  const body = MakeTokenBody.safeParse({
    name,
    role,
    rights: chosen,
    days: days.trim() === '' ? Number.NaN : Number(days),
  })
  const wrong = new Set(isTried ? body.error?.issues.map(({ path }) => path[0]) : [])
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (body.success) make.mutate(body.data, { onSuccess: onMade })
  }
  return (
    <form className="stack" aria-label="Make a token" noValidate onSubmit={submit}>
      <ArrivingTitle of="token">Make a token</ArrivingTitle>
      <Field
        label="Name"
        hint="What the program is, as “nightly feeder import”. It stands in the history."
        fault={wrong.has('name') ? 'Give a name of up to 80 characters.' : null}
      >
        {(control) => (
          <input
            className="input"
            autoComplete="off"
            value={name}
            onChange={({ target }) => setName(target.value)}
            {...control}
          />
        )}
      </Field>
      <Field label="Acts as">
        {(control) => (
          <select
            className="input"
            value={role}
            onChange={({ target }) => {
              const next = ROLES.find((each) => each === target.value)
              if (next) setRole(next)
            }}
            {...control}
          >
            {ROLES.map((each) => (
              <option key={each} value={each}>
                {ROLE_WORDS[each]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <CheckBoxes
        legend="May"
        choices={offered.map((right) => ({ value: right, words: right }))}
        chosen={chosen}
        fault={wrong.has('rights') ? 'Choose at least one.' : null}
        onChoose={setRights}
      />
      <Field
        label="Works for"
        unit="days"
        fault={wrong.has('days') ? 'Give whole days, from 1 to 366.' : null}
      >
        {(control) => (
          <input
            className="input token-days"
            inputMode="numeric"
            value={days}
            onChange={({ target }) => setDays(target.value)}
            {...control}
          />
        )}
      </Field>
      {make.isError && <ErrorNote title="Not made" error={make.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={make.isPending}>
          {make.isPending ? 'Making…' : 'Make it, and show the secret'}
        </Button>
        <Button onClick={onGiveUp}>Give up</Button>
      </div>
    </form>
  )
}
