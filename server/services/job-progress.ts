import type { AsLeft } from '#domain/jobs/as-left.ts'
import { leftOutWork } from '#domain/jobs/bird-work-left-out.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { runOf, stepsCount } from '#domain/jobs/job-run.ts'
import type { AsLeftRecord, JobSummary, ListedJob, Progress } from './job-ports.ts'
import type { Store } from './ports.ts'

/** Most jobs whose progress is kept in memory. */
const MOST_KEPT = 2000

/** @param asLeft null where nothing was written down yet */
export function progressOf(
  plan: JobPlan,
  entries: readonly JobEntry[],
  asLeft: AsLeft | null,
): Progress {
  const { done, leftOut, all } = stepsCount(runOf(plan, entries).run)
  const said = entries.filter(({ kind }) => kind === 'deviation').length
  const deviations = said + (asLeft ? leftOutWork(asLeft, entries).length : 0)
  return { stepsDone: done, stepsLeftOut: leftOut, stepsAll: all, deviations }
}

/** Of what it was worked out. */
interface Known {
  readonly entries: number
  readonly asLeftVersion: number
  readonly progress: Progress
}

/**
 * How far jobs are. It follows from the plan, which never changes, from entries, which only grow, and
 * from what was left: so it is worked out once for each number of entries and version of that, and not
 * at all for jobs that did not begin or are closed.
 */
export class JobProgress {
  readonly #store: Pick<Store, 'jobs' | 'asLeft'>
  readonly #known = new Map<string, Known>()

  constructor(store: Pick<Store, 'jobs' | 'asLeft'>) {
    this.#store = store
  }

  async of({ entries, progress, ...job }: ListedJob): Promise<JobSummary> {
    if (entries === 0 || job.state === 'closed') return { ...job, ...progress }
    const asLeft = await this.#store.asLeft.find(job.id)
    const known = this.#known.get(job.id)
    if (known?.entries === entries && known.asLeftVersion === (asLeft?.version ?? 0)) {
      return { ...job, ...known.progress }
    }
    return { ...job, ...(await this.#workOut(job.id, asLeft, progress)) }
  }

  async #workOut(
    jobId: string,
    asLeft: AsLeftRecord | null,
    otherwise: Progress,
  ): Promise<Progress> {
    const job = await this.#store.jobs.find(jobId)
    if (!job) return otherwise
    const entries = (await this.#store.jobs.entries(jobId)).map(({ entry }) => entry)
    const progress = progressOf(job.plan, entries, asLeft?.asLeft ?? null)
    const asLeftVersion = asLeft?.version ?? 0
    this.#known.delete(jobId)
    this.#known.set(jobId, { entries: entries.length, asLeftVersion, progress })
    const oldest = this.#known.keys().next().value
    if (this.#known.size > MOST_KEPT && oldest !== undefined) this.#known.delete(oldest)
    return progress
  }
}
