import { useState } from 'react'
import type { Job } from '#contract/jobs.ts'
import { useJobChanges } from '../api/jobs.ts'
import { JOB_FIELDS } from '../record/job-record-fields.ts'
import { Meanwhile } from '../record/meanwhile.tsx'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import {
  draftOfChosenHead,
  draftOfJob,
  fieldsOfHead,
  type HeadDraft,
  headDrafts,
  headOfFields,
  type NewerJob,
  newerJobOf,
} from './job-head-draft.ts'
import { JobHeadFields } from './job-head-fields.tsx'

interface Props {
  readonly job: Job
  readonly onDone: () => void
}

/** Changes title, note, due date and crew of a job; what is typed is kept until it is saved. */
export function JobHeadForm({ job, onDone }: Props) {
  const { id, feederId } = job
  const [opened] = useState(() => draftOfJob(job))
  const draft = headDrafts.use(id) ?? opened
  const keep = (next: HeadDraft) => headDrafts.keep(id, next)
  const letGo = () => {
    headDrafts.keep(id, null)
    onDone()
  }
  const { change, restore } = useJobChanges(feederId)
  const [newer, setNewer] = useState<NewerJob | null>(null)
  const standing = newer && newer.version > job.version ? newer : job
  const save = (next: HeadDraft) => {
    if (next.title.trim() === '') return
    change.mutate(
      { id, body: { ...headOfFields(next), version: next.version } },
      { onSuccess: letGo, onError: (error) => setNewer(newerJobOf(error)) },
    )
  }
  const { version: typedOn, base, ...mine } = draft
  return (
    <form
      className="stack job-form"
      aria-label={`Title, note, due date and crew of ${opened.title}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        save(draft)
      }}
    >
      <Meanwhile
        thing={{ subject: 'job', subjectId: id, feederId }}
        what="this job"
        fields={JOB_FIELDS}
        typedOn={typedOn}
        base={base}
        mine={mine}
        standing={{
          version: standing.version,
          fields: fieldsOfHead(standing),
          isDeleted: standing.deletedAt !== null,
        }}
        isRefused={newer !== null}
        isSaving={change.isPending}
        onSave={(chosen) => {
          const merged = draftOfChosenHead(chosen, standing)
          keep(merged)
          save(merged)
        }}
        onDropMine={letGo}
        onRestore={(version) =>
          restore.mutate(
            { id, version },
            { onSuccess: (restored) => keep({ ...draft, version: restored.version }) },
          )
        }
      />
      <JobHeadFields fields={mine} onType={(typed) => keep({ ...draft, ...typed })} />
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      {change.error && !newerJobOf(change.error) && (
        <ErrorNote title="Not saved; what you typed is still here." error={change.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={change.isPending}>
          {change.isPending ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>Give up the changes</Button>
      </div>
    </form>
  )
}
