import { type FormEvent, useState } from 'react'
import { Person } from '#contract/people.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { usePeopleChanges } from '../api/people.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import { SideBySide } from '../record/side-by-side.tsx'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import {
  bodyOf,
  DRAFT_FIELDS,
  draftOfPerson,
  fieldsOf,
  namedOfFields,
  PersonDraft,
} from './person-draft.ts'
import { RoleBoxes } from './role-boxes.tsx'

const drafts = keptDrafts('crossarm.person-drafts', PersonDraft)

interface Props {
  readonly person: Person
  readonly onDone: () => void
}

/** Changes name and roles. Where somebody else was quicker, both versions stand side by side. */
export function PersonForm({ person, onDone }: Props) {
  const { change } = usePeopleChanges()
  const draft = drafts.use(person.id) ?? draftOfPerson(person)
  const [isTried, setIsTried] = useState(false)
  const newer = newerOf(change.error)
  const letGo = () => {
    drafts.keep(person.id, null)
    change.reset()
  }
  const type = (next: Partial<PersonDraft>) => drafts.keep(person.id, { ...draft, ...next })
  const save = (named: Pick<PersonDraft, 'name' | 'roles'>, on: Person) =>
    change.mutate(
      { personId: person.id, body: bodyOf(named, on) },
      {
        onSuccess: () => {
          letGo()
          onDone()
        },
      },
    )
  const isNameless = draft.name.trim() === ''
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsTried(true)
    if (!isNameless && draft.roles.length > 0) {
      save(draft, { ...person, version: draft.base.version })
    }
  }
  return (
    <>
      <form className="stack" aria-label="Name and roles" noValidate onSubmit={submit}>
        <Field label="Name" fault={isTried && isNameless ? 'Give a name.' : null}>
          {(control) => (
            <input
              className="input"
              autoComplete="off"
              maxLength={80}
              value={draft.name}
              onChange={({ target }) => type({ name: target.value })}
              {...control}
            />
          )}
        </Field>
        <RoleBoxes
          chosen={draft.roles}
          fault={isTried && draft.roles.length === 0 ? 'Choose at least one role.' : null}
          onChoose={(roles) => type({ roles })}
        />
        {change.isError && !newer && (
          <ErrorNote title="Not saved; what you typed is still here" error={change.error} />
        )}
        {!newer && (
          <div className="row">
            <Button type="submit" look="main" disabled={change.isPending}>
              {change.isPending ? 'Saving…' : 'Save name and roles'}
            </Button>
            <Button onClick={letGo}>Give up the changes</Button>
          </div>
        )}
      </form>
      {newer && (
        <SideBySide
          thing={{ subject: 'person', subjectId: person.id, feederId: null }}
          version={newer.version}
          what="this person"
          fields={DRAFT_FIELDS}
          base={fieldsOf(draft.base)}
          mine={fieldsOf(draft)}
          theirs={fieldsOf(newer)}
          isSaving={change.isPending}
          onSave={(merged) => save(namedOfFields(merged), newer)}
          onDropMine={letGo}
        />
      )}
    </>
  )
}

function newerOf(error: Error | null): Person | null {
  if (!(error instanceof ProblemError) || error.problem.code !== 'stale-version') return null
  return Person.safeParse(error.problem.current).data ?? null
}
