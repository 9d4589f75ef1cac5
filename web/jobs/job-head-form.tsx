import type { Job } from '#contract/jobs.ts'
import { useJobChanges } from '../api/jobs.ts'
import { RecordEdit } from '../record/record-edit.tsx'
import { JOB_HEAD } from './job-head-draft.ts'
import { JobHeadFields } from './job-head-fields.tsx'

interface Props {
  readonly job: Job
  readonly onDone: () => void
}

/** Changes title, note, due date and crew of a job. */
export function JobHeadForm({ job, onDone }: Props) {
  const changes = useJobChanges(job.feederId)
  return (
    <RecordEdit
      kind={JOB_HEAD}
      record={job}
      changes={changes}
      className="stack job-form"
      onDone={onDone}
    >
      {(draft, onType) => <JobHeadFields fields={draft} onType={onType} />}
    </RecordEdit>
  )
}
