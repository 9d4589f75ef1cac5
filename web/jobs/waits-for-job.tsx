import type { JobSummary } from '#contract/jobs.ts'
import { Button } from '../ui/button.tsx'
import { JobStateMark } from './job-state-mark.tsx'
import './waits-for-job.css'

interface Props {
  readonly job: Pick<JobSummary, 'title' | 'state'>
  /** Left out in a row that is a button itself. */
  readonly onOpen?: () => void
}

/** Which job a pole waits for, and how far that is. */
export function WaitsForJob({ job: { title, state }, onOpen }: Props) {
  return (
    <>
      Waits for the job{' '}
      {onOpen ? (
        <Button look="plain" className="job-inline" onClick={onOpen}>
          {title}
        </Button>
      ) : (
        `“${title}”`
      )}
      : <JobStateMark state={state} />
    </>
  )
}
