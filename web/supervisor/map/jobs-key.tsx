import { JOB_STATES } from '#domain/jobs/job-state.ts'
import { useMay } from '../../api/account.ts'
import { useJobs } from '../../api/jobs.ts'
import { JobStateMark } from '../../jobs/job-state-mark.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { jobSpots } from './job-spots.ts'
import './jobs-key.css'

/** Rows of the legend for the poles of open jobs; only what is drawn is explained. */
export function JobsKey() {
  const { feeder } = useFeeder()
  const jobs = useJobs(feeder.header.id, useMay('see jobs')).data ?? []
  const spots = jobSpots(feeder.poles, jobs, localToday()).features.map(
    ({ properties }) => properties,
  )
  if (spots.length === 0) return null
  const states = JOB_STATES.filter((state) => spots.some((spot) => spot.state === state))
  return (
    <div>
      <p>Poles of open jobs</p>
      <ul className="jobs-key">
        {states.map((state) => (
          <li key={state}>
            <JobStateMark state={state} />
          </li>
        ))}
        {spots.some(({ late }) => late) && (
          <li className="jobs-key-late">
            <svg viewBox="0 0 24 24" width="18" height="18" aria-hidden="true">
              <circle cx="12" cy="12" r="9" />
            </svg>
            Ring: late
          </li>
        )}
      </ul>
    </div>
  )
}
