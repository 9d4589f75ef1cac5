import type { JobSummary } from '#contract/jobs.ts'
import { localToday } from '../../state/today.ts'
import { dueInWords, isLate } from '../job-words.ts'

/** When a job is due; a late one says so in words and weight. */
export function DueWords({ job }: { readonly job: Pick<JobSummary, 'dueOn' | 'state'> }) {
  const today = localToday()
  const words = dueInWords(job, today)
  return isLate(job, today) ? <strong className="job-late">{words}</strong> : <span>{words}</span>
}
