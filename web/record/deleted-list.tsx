import { useState } from 'react'
import type { DeletedItem, Subject } from '#contract/history.ts'
import type { Right } from '#contract/rights.ts'
import { useMay } from '../api/account.ts'
import { useDeleted, useDeletedChanges } from '../api/history.ts'
import { useNames } from '../api/names.ts'
import { useFeeder } from '../state/feeder.tsx'
import { counted } from '../state/format.ts'
import { Button } from '../ui/button.tsx'
import { List } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { HistoryButton } from './history-button.tsx'
import { Moment } from './moment.tsx'
import { isPurgeable, PurgeForm } from './purge-form.tsx'
import './record.css'
import { SUBJECT_WORDS } from './role-words.ts'

/** What was deleted on the open feeder, with the steps that bring it back or end it. */
export function DeletedList() {
  const { feeder } = useFeeder()
  const feederId = feeder.header.id
  const maySee = useMay('see who changed what')
  const { data, error, isPending, refetch } = useDeleted(feederId, maySee)
  if (!maySee)
    return <EmptyNote what="What was deleted is not shown in the role in which you act." />
  return (
    <section className="stack" aria-label="Deleted on this feeder">
      {isPending && <LoadingNote what="Looking for what was deleted…" />}
      {error && (
        <ErrorNote
          title="What was deleted could not be listed."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data?.length === 0 && (
        <EmptyNote
          what={`Nothing of ${feeder.header.name} is deleted. Deleted proposals, items, nests, finds, pole tops, programmes, jobs, photos and reports wait here until they are restored or removed for good.`}
        />
      )}
      {data && data.length > 0 && (
        <List label={counted(data.length, 'deleted thing')}>
          {data.map((deleted) => (
            <DeletedRow key={`${deleted.subject} ${deleted.subjectId}`} deleted={deleted} />
          ))}
        </List>
      )}
    </section>
  )
}

const RESTORING: Partial<Record<Subject, Right>> = {
  proposal: 'delete or restore a proposal',
  protection: 'delete or restore a guard, cover or perch',
  nest: 'delete or restore a nest or a find',
  incident: 'delete or restore a nest or a find',
  'pole-top': 'choose or measure a pole top',
  programme: 'delete or restore a programme',
  job: 'delete or restore a job',
  attachment: 'delete or restore a file',
}

function DeletedRow({ deleted }: { readonly deleted: DeletedItem }) {
  const { subject, subjectId, feederId, what, deletedAt, deletedBy } = deleted
  const nameOf = useNames()
  const mayRestore = useMay(RESTORING[subject] ?? 'purge what was deleted')
  const mayPurge = useMay('purge what was deleted')
  const { restore } = useDeletedChanges(feederId)
  const [isPurging, setIsPurging] = useState(false)
  return (
    <li className="list-item deleted-row">
      <span>
        {SUBJECT_WORDS[subject]}: <strong>{what}</strong>
      </span>
      <span className="soft small">
        Deleted by {nameOf(deletedBy)}, <Moment at={deletedAt} />
      </span>
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      {isPurging && isPurgeable(deleted) && (
        <PurgeForm deleted={deleted} onGiveUp={() => setIsPurging(false)} />
      )}
      <HistoryButton
        thing={{ subject, subjectId, feederId }}
        name={what}
        beside={
          <>
            {mayRestore && (
              <Button
                aria-label={`Restore ${what}`}
                disabled={restore.isPending}
                onClick={() => restore.mutate(deleted)}
              >
                Restore
              </Button>
            )}
            {mayPurge && isPurgeable(deleted) && (
              <Button
                look="danger"
                aria-label={`Remove ${what} for good`}
                aria-expanded={isPurging}
                onClick={() => setIsPurging(!isPurging)}
              >
                Remove for good…
              </Button>
            )}
            {!mayRestore && (
              <span className="soft small">
                Restoring it is not yours in the role in which you act.
              </span>
            )}
          </>
        }
      />
    </li>
  )
}
