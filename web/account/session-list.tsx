import type { SignedInSession } from '#contract/account.ts'
import { useSessionChanges, useSessions } from '../api/account.ts'
import { Moment } from '../record/moment.tsx'
import { momentInWords } from '../record/moment-in-words.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { deviceInWords } from './device-in-words.ts'

/** Where the person is signed in, with the way to end each. */
export function SessionList() {
  const sessions = useSessions()
  const { end, endOthers } = useSessionChanges()
  const error = end.error ?? endOthers.error
  const others = sessions.data?.filter(({ isThisOne }) => !isThisOne) ?? []
  return (
    <section className="stack" aria-labelledby="session-list">
      <h3 id="session-list">Where you are signed in</h3>
      {sessions.isPending && <LoadingNote what="Listing your sessions…" />}
      {sessions.isError && (
        <ErrorNote
          title="Your sessions could not be listed."
          error={sessions.error}
          onRetry={() => void sessions.refetch()}
        />
      )}
      {sessions.data && (
        <List label={`Your sessions: ${sessions.data.length}`}>
          {sessions.data.map((session) => (
            <ListRow key={session.id}>
              <SessionRow
                session={session}
                isBusy={end.isPending}
                onEnd={() => end.mutate(session.id)}
              />
            </ListRow>
          ))}
        </List>
      )}
      {error && <ErrorNote title="Not signed out there" error={error} />}
      {others.length > 0 && (
        <div className="row">
          <Button disabled={endOthers.isPending} onClick={() => endOthers.mutate()}>
            Sign out everywhere but here
          </Button>
        </div>
      )}
    </section>
  )
}

interface RowProps {
  readonly session: SignedInSession
  readonly isBusy: boolean
  readonly onEnd: () => void
}

function SessionRow({ session, isBusy, onEnd }: RowProps) {
  const { isThisOne, startedAt, endsAt, device } = session
  const words = deviceInWords(device)
  return (
    <div className="account-session">
      <span>
        {isThisOne ? <strong>{words}, this session</strong> : words}
        <br />
        <span className="small soft">
          Since <Moment at={startedAt} />. Ends{' '}
          <time dateTime={endsAt}>{momentInWords(endsAt)}</time> where it is not used.
        </span>
      </span>
      {!isThisOne && (
        <Button
          disabled={isBusy}
          aria-label={`End the session on ${words}, since ${momentInWords(startedAt)}`}
          onClick={onEnd}
        >
          End
        </Button>
      )}
    </div>
  )
}
