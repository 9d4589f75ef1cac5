import type { Job } from '#contract/jobs.ts'
import { useMay } from '../../api/account.ts'
import { useJobChanges } from '../../api/jobs.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { useNewestChange } from '../../state/live.ts'
import { Button } from '../../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../../ui/state-note.tsx'

interface Props {
  readonly jobId: string
  /** As the person themselves deleted it; null where somebody else did, or there never was one. */
  readonly deleted: Job | null
  readonly onRestored: () => void
}

/** In place of a job that is not there, with the step that brings it back. */
export function JobGone({ jobId, deleted, onRestored }: Props) {
  const feederId = useFeeder().feeder.header.id
  const told = useNewestChange('job', jobId)
  const mayRestore = useMay('delete or restore a job')
  const { restore } = useJobChanges(feederId)
  const version = deleted?.version ?? (told?.what === 'deleted' ? told.version : null)
  if (version === null) {
    return (
      <EmptyNote what="There is no such job. It may be deleted: “What was deleted”, below the lists, brings it back." />
    )
  }
  return (
    <EmptyNote
      what={deleted ? `“${deleted.title}” is deleted.` : 'This job was deleted meanwhile.'}
    >
      {mayRestore && (
        <Button
          disabled={restore.isPending}
          onClick={() => restore.mutate({ id: jobId, version }, { onSuccess: onRestored })}
        >
          Restore it
        </Button>
      )}
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
    </EmptyNote>
  )
}
