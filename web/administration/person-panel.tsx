import type { Invited, Person } from '#contract/people.ts'
import { usePeopleChanges } from '../api/people.ts'
import { HistoryButton } from '../record/history-button.tsx'
import { Moment } from '../record/moment.tsx'
import { Who } from '../record/who.tsx'
import { ArrivingTitle } from '../ui/arriving-title.tsx'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { PersonForm } from './person-form.tsx'

interface Props {
  readonly person: Person
  readonly onInvited: (invited: Invited) => void
  readonly onDone: () => void
}

/** One person: name and roles, the way in, and what was changed about them. */
export function PersonPanel({ person, onInvited, onDone }: Props) {
  return (
    <div className="stack">
      <div className="row">
        <Button look="plain" onClick={onDone}>
          Back to all people
        </Button>
      </div>
      <ArrivingTitle of={person.id}>{person.name}</ArrivingTitle>
      <p className="soft">
        {person.email}. Last changed by <Who {...person.changedBy} />,{' '}
        <Moment at={person.changedAt} />.
      </p>
      <PersonForm person={person} onDone={onDone} />
      <WayIn person={person} onInvited={onInvited} />
      <HistoryButton
        thing={{ subject: 'person', subjectId: person.id, feederId: null }}
        name={person.name}
      />
    </div>
  )
}

/** A new link, and closing or opening the account. */
function WayIn({ person, onInvited }: Omit<Props, 'onDone'>) {
  const { change, renew } = usePeopleChanges()
  const { id, name, roles, state, version } = person
  const turn = () =>
    change.mutate({
      personId: id,
      body: { name, roles, version, state: state === 'closed' ? 'active' : 'closed' },
    })
  const error = change.error ?? renew.error
  return (
    <section className="stack" aria-labelledby="way-in">
      <h3 id="way-in">Account</h3>
      <p>{STATE_WORDS[state]}</p>
      {error && <ErrorNote title="Not done" error={error} />}
      <div className="row">
        {state !== 'closed' && (
          <Button
            disabled={renew.isPending}
            onClick={() => renew.mutate(id, { onSuccess: onInvited })}
          >
            {state === 'invited' ? 'Make a new link' : 'Make a link to set a new password'}
          </Button>
        )}
        <Button
          look={state === 'closed' ? undefined : 'danger'}
          disabled={change.isPending}
          onClick={turn}
        >
          {state === 'closed' ? 'Open the account again' : 'Close the account'}
        </Button>
      </div>
    </section>
  )
}

const STATE_WORDS: Readonly<Record<Person['state'], string>> = {
  invited: 'Invited; nobody has accepted yet. A new link makes the older one useless.',
  active:
    'Can sign in. Closing ends all sessions at once; what was done stays under the name, and the account can be opened again.',
  closed: 'Closed: cannot sign in. What was done stays under the name.',
}
