import { useFeeder } from '../state/feeder.tsx'
import { select } from '../state/selection.ts'
import { viewOfJob } from './job-view.ts'
import { useOpenJobsByPole } from './open-jobs.ts'
import { WaitsForJob } from './waits-for-job.tsx'

/** Jobs that the pole waits for, each with the step to it; nothing where it waits for none. */
export function PoleJobs({ pole }: { readonly pole: string }) {
  const jobs = useOpenJobsByPole(useFeeder().feeder.header.id).get(pole) ?? []
  if (jobs.length === 0) return null
  return (
    <ul aria-label="Jobs that this pole waits for">
      {jobs.map((job) => (
        <li key={job.id}>
          <WaitsForJob job={job} onOpen={() => select({ view: viewOfJob(job.id) })} />
        </li>
      ))}
    </ul>
  )
}
