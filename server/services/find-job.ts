import type { Job } from './job-ports.ts'
import type { Store } from './ports.ts'
import { Refusal } from './refusal.ts'

/** @throws Refusal `not-found`, also for a deleted one. */
export async function findJob(store: Pick<Store, 'jobs'>, jobId: string): Promise<Job> {
  const job = await store.jobs.find(jobId)
  if (job && job.deletedAt === null) return job
  const deleted = job && `The job “${job.title}” was deleted. Have it restored first.`
  throw new Refusal('not-found', deleted ?? missingJob(jobId))
}

export function missingJob(jobId: string): string {
  return `There is no job "${jobId}".`
}
