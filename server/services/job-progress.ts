import { runOf, stepsCount } from '#domain/jobs/job-run.ts'
import type { JobSummary, ListedJob } from './job-ports.ts'
import type { Store } from './ports.ts'

type Progress = Pick<JobSummary, 'stepsDone' | 'stepsAll' | 'deviations'>

/** Most jobs whose progress is kept in memory. */
const MOST_KEPT = 2000

/**
 * How far jobs are. It follows from plan and entries, of which one never changes and the other only
 * grows: so it is worked out once for each number of entries.
 */
export class JobProgress {
  readonly #store: Pick<Store, 'jobs'>
  readonly #known = new Map<string, { readonly entries: number; readonly progress: Progress }>()

  constructor(store: Pick<Store, 'jobs'>) {
    this.#store = store
  }

  async of({ entries, ...job }: ListedJob): Promise<JobSummary> {
    const known = this.#known.get(job.id)
    if (known?.entries === entries) return { ...job, ...known.progress }
    const found = await this.#workOut(job.id)
    this.#keep(job.id, found)
    return { ...job, ...found.progress }
  }

  async #workOut(jobId: string) {
    const job = await this.#store.jobs.find(jobId)
    const kept = (await this.#store.jobs.entries(jobId)).map(({ entry }) => entry)
    if (!job) return { entries: 0, progress: { stepsDone: 0, stepsAll: 0, deviations: 0 } }
    const { done, all } = stepsCount(runOf(job.plan, kept).run)
    const deviations = kept.filter(({ kind }) => kind === 'deviation').length
    return { entries: kept.length, progress: { stepsDone: done, stepsAll: all, deviations } }
  }

  #keep(jobId: string, found: { readonly entries: number; readonly progress: Progress }): void {
    this.#known.delete(jobId)
    this.#known.set(jobId, found)
    const oldest = this.#known.keys().next().value
    if (this.#known.size > MOST_KEPT && oldest !== undefined) this.#known.delete(oldest)
  }
}
