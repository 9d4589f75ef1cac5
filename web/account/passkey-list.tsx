import { type FormEvent, useState } from 'react'
import { usePasskeyChanges, usePasskeys } from '../api/passkeys.ts'
import { momentInWords } from '../record/moment-in-words.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'

/** Passkeys by which the person signs in without a password. */
export function PasskeyList() {
  const passkeys = usePasskeys(true)
  const { remove } = usePasskeyChanges()
  return (
    <section className="stack" aria-labelledby="passkey-list">
      <h3 id="passkey-list">Passkeys</h3>
      {passkeys.isPending && <LoadingNote what="Listing your passkeys…" />}
      {passkeys.isError && <ErrorNote title="Not listed" error={passkeys.error} />}
      {passkeys.data?.length === 0 && (
        <p>None yet. With one, this device signs you in by its own lock.</p>
      )}
      {passkeys.data && passkeys.data.length > 0 && (
        <List label={`Your passkeys: ${passkeys.data.length}`}>
          {passkeys.data.map(({ id, name, createdAt }) => (
            <ListRow key={id}>
              <div className="account-session">
                <span>
                  {name || 'Without a name'}
                  {createdAt && (
                    <span className="small soft"> since {momentInWords(createdAt)}</span>
                  )}
                </span>
                <Button
                  disabled={remove.isPending}
                  aria-label={`Remove the passkey ${name || 'without a name'}`}
                  onClick={() => remove.mutate(id)}
                >
                  Remove
                </Button>
              </div>
            </ListRow>
          ))}
        </List>
      )}
      {remove.isError && <ErrorNote title="Not removed" error={remove.error} />}
      <AddPasskey />
    </section>
  )
}

function AddPasskey() {
  const { add } = usePasskeyChanges()
  const [name, setName] = useState('')
  const submit = (event: FormEvent) => {
    event.preventDefault()
    add.mutate(name.trim(), { onSuccess: () => setName('') })
  }
  return (
    <form className="stack" aria-label="Add a passkey" onSubmit={submit}>
      <Field label="Name of the new passkey" hint="As “tablet in the truck”.">
        {(control) => (
          <input
            className="input"
            value={name}
            maxLength={80}
            onChange={({ target }) => setName(target.value)}
            {...control}
          />
        )}
      </Field>
      {add.isError && <ErrorNote title="Not added" error={add.error} />}
      <div className="row">
        <Button type="submit" disabled={add.isPending || name.trim() === ''}>
          {add.isPending ? 'Waiting for the device…' : 'Add a passkey'}
        </Button>
      </div>
    </form>
  )
}
