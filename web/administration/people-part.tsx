import { useState } from 'react'
import type { Invited, Person } from '#contract/people.ts'
import { usePeople } from '../api/people.ts'
import { counted } from '../state/format.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { InvitationLink } from './invitation-link.tsx'
import { InviteForm } from './invite-form.tsx'
import { PersonPanel } from './person-panel.tsx'
import { PersonRow } from './person-row.tsx'

/** One place for the list, a person, or a new one: never one over the other. */
type Shown = { readonly what: 'list' | 'invite' } | { readonly what: 'person'; readonly id: string }

export function PeoplePart() {
  const people = usePeople()
  const [shown, setShown] = useState<Shown>({ what: 'list' })
  const [invited, setInvited] = useState<Invited | null>(null)
  const toList = () => setShown({ what: 'list' })
  if (people.isPending) return <LoadingNote what="Listing the people…" />
  if (people.isError) {
    return (
      <ErrorNote
        title="The people could not be listed."
        error={people.error}
        onRetry={() => void people.refetch()}
      />
    )
  }
  const person = shown.what === 'person' && people.data.find(({ id }) => id === shown.id)
  const onInvited = (next: Invited) => {
    setInvited(next)
    toList()
  }
  if (shown.what === 'invite') return <InviteForm onInvited={onInvited} onGiveUp={toList} />
  if (person) {
    return <PersonPanel key={person.id} person={person} onInvited={onInvited} onDone={toList} />
  }
  return (
    <div className="stack">
      {invited && <InvitationLink invited={invited} onDone={() => setInvited(null)} />}
      <div className="row people-head">
        <span className="soft">{inWords(people.data)}</span>
        <Button look={invited ? undefined : 'main'} onClick={() => setShown({ what: 'invite' })}>
          Invite a person…
        </Button>
      </div>
      {people.data.length === 0 && <EmptyNote what="Nobody yet. Invite the first person." />}
      <List label={`People: ${people.data.length}`}>
        {people.data.map((one) => (
          <ListRow key={one.id} onChoose={() => setShown({ what: 'person', id: one.id })}>
            <PersonRow person={one} />
          </ListRow>
        ))}
      </List>
    </div>
  )
}

function inWords(people: readonly Person[]): string {
  const closed = people.filter(({ state }) => state === 'closed').length
  const all = counted(people.length, 'person', 'people')
  return closed === 0 ? all : `${all}, ${closed} of them closed`
}
