import type { Regulator } from '#domain/feeder/equipment.ts'
import { useMay } from '../api/account.ts'
import { useJobs } from '../api/jobs.ts'
import { viewOfJob } from '../jobs/job-view.ts'
import { Moment } from '../record/moment.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { takenOutBy } from './taken-out-by.ts'

/** By which job a bank was left bypassed, and when that was closed; nothing where it is not known. */
export function TakenOutBy({ bank }: { readonly bank: Regulator }) {
  const jobs = useJobs(useFeeder().feeder.header.id, useMay('see jobs')).data ?? []
  const job = takenOutBy(jobs, bank)
  if (!job) return null
  return (
    <>
      Left so by the job{' '}
      <Button
        look="plain"
        className="planner-inline"
        onClick={() => select({ view: viewOfJob(job.id) })}
      >
        {job.title}
      </Button>
      , closed <Moment at={job.stateSince} />.
    </>
  )
}
