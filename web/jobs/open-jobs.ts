import type { JobSummary } from '#contract/jobs.ts'
import { useMay } from '../api/account.ts'
import { useJobs } from '../api/jobs.ts'
import { memoLast } from '../state/memo-last.ts'
import { isOpen } from './job-words.ts'

/** Open jobs of a feeder by pole; empty for those who may not see jobs, and until they are there. */
export function useOpenJobsByPole(feederId: string): ReadonlyMap<string, readonly JobSummary[]> {
  return byPole(useJobs(feederId, useMay('see jobs')).data ?? NONE)
}

const NONE: readonly JobSummary[] = []

const byPole = memoLast((jobs: readonly JobSummary[]) => {
  const found = new Map<string, JobSummary[]>()
  for (const job of jobs.filter(({ state }) => isOpen(state))) {
    for (const pole of job.poles) found.set(pole, [...(found.get(pole) ?? []), job])
  }
  return found
})
