import { findFeeder } from './find-feeder.ts'
import type { JobSummary } from './job-ports.ts'
import { JobProgress } from './job-progress.ts'
import type { Store } from './ports.ts'

export interface JobQuery {
  readonly feederId?: string | undefined
  /** Only those that are not closed. */
  readonly open?: 'yes' | undefined
}

/** Lists jobs with how far they are, due first. Throws a Refusal `not-found` without the feeder. */
export function jobLister(store: Pick<Store, 'jobs' | 'asLeft' | 'feeders'>) {
  const progress = new JobProgress(store)
  return async ({ feederId, open }: JobQuery): Promise<JobSummary[]> => {
    if (feederId !== undefined) await findFeeder(store, feederId)
    const jobs = await store.jobs.list(feederId)
    const wanted = open === 'yes' ? jobs.filter(({ state }) => state !== 'closed') : jobs
    const summaries: JobSummary[] = []
    // One after the other: of each that is under way the whole plan is read.
    for (const job of wanted) summaries.push(await progress.of(job))
    return summaries
  }
}
