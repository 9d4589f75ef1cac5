import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { runOf, stepsCount } from '#domain/jobs/job-run.ts'
import type { JobSummary, ListedJob, Progress } from './job-ports.ts'
import type { Store } from './ports.ts'

/** Most jobs whose progress is kept in memory. */
const MOST_KEPT = 2000

export function progressOf(plan: JobPlan, entries: readonly JobEntry[]): Progress {
  const { done, all } = stepsCount(runOf(plan, entries).run)
  const deviations = entries.filter(({ kind }) => kind === 'deviation').length
  return { stepsDone: done, stepsAll: all, deviations }
}

/**
 * How far jobs are. It follows from plan and entries, of which one never changes and the other only
 * grows: so it is worked out once for each number of entries, and not at all for jobs that did not
 * begin or are closed.
 */
export class JobProgress {
  readonly #store: Pick<Store, 'jobs'>
  readonly #known = new Map<string, { readonly entries: number; readonly progress: Progress }>()

  constructor(store: Pick<Store, 'jobs'>) {
    this.#store = store
  }

  async of({ entries, progress, ...job }: ListedJob): Promise<JobSummary> {
    if (entries === 0 || job.state === 'closed') return { ...job, ...progress }
    const known = this.#known.get(job.id)
    if (known?.entries === entries) return { ...job, ...known.progress }
    return { ...job, ...(await this.#workOut(job.id, progress)) }
  }

  async #workOut(jobId: string, otherwise: Progress): Promise<Progress> {
    const job = await this.#store.jobs.find(jobId)
    if (!job) return otherwise
    const entries = (await this.#store.jobs.entries(jobId)).map(({ entry }) => entry)
    const progress = progressOf(job.plan, entries)
    this.#known.delete(jobId)
    this.#known.set(jobId, { entries: entries.length, progress })
    const oldest = this.#known.keys().next().value
    if (this.#known.size > MOST_KEPT && oldest !== undefined) this.#known.delete(oldest)
    return progress
  }
}
