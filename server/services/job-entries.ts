import type { EntryOutcome } from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { type JobRun, offerEntry, runOf } from '#domain/jobs/job-run.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { actorOf } from './actor-of.ts'
import { findJob } from './find-job.ts'
import type { Job } from './job-ports.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'

/**
 * Takes in what was done in the field. An entry that is there already is not kept twice; one that
 * the run of the job does not allow is answered with why and is not kept. All is looked at and
 * written in one transaction, in the order in which it was sent.
 *
 * @throws Refusal `not-found`, or `wrong-state` where the job takes no entries
 */
export function sendEntries(
  { store, clock }: Pick<Ports, 'store' | 'clock'>,
  asker: Asker,
  jobId: string,
  entries: readonly JobEntry[],
): Promise<EntryOutcome[]> {
  return store.together(async () => {
    const job = await findJob(store, jobId)
    const before = (await store.jobs.entries(jobId)).map(({ entry }) => entry)
    const intake = new Intake(job, before)
    const outcomes = entries.map((entry) => intake.take(entry))
    await store.jobs.addEntries(job, intake.taken, { actor: actorOf(asker), at: clock() })
    return outcomes
  })
}

/** Entries on their way into a job, one after the other. */
class Intake {
  readonly taken: JobEntry[] = []
  readonly #job: Job
  readonly #known: Map<string, JobEntry>
  #run: JobRun

  constructor(job: Job, before: readonly JobEntry[]) {
    this.#job = job
    this.#known = new Map(before.map((entry) => [entry.id, entry]))
    this.#run = runOf(job.plan, before).run
  }

  take(entry: JobEntry): EntryOutcome {
    const { id } = entry
    const known = this.#known.get(id)
    if (known) return isSame(known, entry) ? { id, outcome: 'had already' } : otherUnder(id)
    const closed = whyNotNow(this.#job, entry)
    if (closed !== null) return { id, outcome: 'refused', why: closed }
    const offer = offerEntry(this.#run, entry)
    if (!offer.ok) return { id, outcome: 'refused', why: offer.why.join(' ') }
    this.#run = offer.run
    this.#known.set(id, entry)
    this.taken.push(entry)
    return { id, outcome: 'kept' }
  }
}

function otherUnder(id: string): EntryOutcome {
  return { id, outcome: 'refused', why: 'Something else was kept under this id before.' }
}

/** Steps only while the job is in the field; what is said or shown of them also until it is closed. */
function whyNotNow({ state }: Job, { kind }: JobEntry): string | null {
  if (state === 'in the field') return null
  if (state !== 'work done') {
    const detail = `${NOT_IN_FIELD[state]} What was entered was not kept, and stays where it is.`
    throw new Refusal('wrong-state', detail)
  }
  if (kind === 'step done' || kind === 'step left out') {
    return 'The work was said to be done, so no more steps are taken. Have the job returned to the field first.'
  }
  return null
}

const NOT_IN_FIELD: Readonly<Record<Exclude<JobState, 'in the field' | 'work done'>, string>> = {
  drafted: 'The job is only drafted.',
  approved: 'The job is approved but not issued yet.',
  issued: 'The job is issued. Say first that it is in the field.',
  closed: 'The job is closed.',
  returned: 'The job was returned. Take it into the field again first, with a reason.',
}

/** Members that were left out and such as have their default are the same. */
function isSame(one: JobEntry, other: JobEntry): boolean {
  return canonical(one) === canonical(other)
}

function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, member: unknown) =>
    typeof member === 'object' && member !== null && !Array.isArray(member)
      ? Object.fromEntries(Object.entries(member).sort(([a], [b]) => (a < b ? -1 : 1)))
      : member,
  )
}
