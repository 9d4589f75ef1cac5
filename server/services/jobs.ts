import type {
  ChangeJobBody,
  DraftJobBody,
  JobAnswer,
  MoveJobBody,
  PutAsLeftBody,
} from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { actorOf } from './actor-of.ts'
import { putAsLeft } from './as-left.ts'
import { draftJob } from './draft-job.ts'
import { findJob, missingJob } from './find-job.ts'
import { sendEntries } from './job-entries.ts'
import type { Job, NewJob } from './job-ports.ts'
import { jobLister } from './list-jobs.ts'
import { prepareMove } from './move-job.ts'
import type { Ports, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/** Jobs, from the draft to what was built. */
export function jobService(ports: Pick<Ports, 'store' | 'threads' | 'clock' | 'newId'>) {
  const { store, clock } = ports
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  return {
    list: jobLister(store),

    get: async (jobId: string): Promise<JobAnswer> => ({
      job: await findJob(store, jobId),
      entries: await store.jobs.entries(jobId),
      asLeft: await store.asLeft.find(jobId),
    }),

    draft: (feederId: string, body: DraftJobBody): Promise<NewJob> =>
      draftJob(ports, feederId, body),

    /** Keeps what was drafted. @throws Refusal `wrong-state` where an open job does the same work */
    keep: (asker: Asker, job: NewJob): Promise<Job> =>
      store.together(async () => {
        await refuseSecond(store, job)
        return store.jobs.add(job, stamp(asker))
      }),

    change: async (asker: Asker, jobId: string, body: ChangeJobBody): Promise<Job> => {
      const { version, ...head } = body
      const written = await store.together(async () => {
        await refuseClosed(store, jobId, 'The job is closed and stays as it is.')
        return store.jobs.change(jobId, version, head, stamp(asker))
      })
      return settleWritten(written, {
        missing: missingJob(jobId),
        wrongState: 'The job is deleted; restore it before you change it.',
      })
    },

    /** What long moves take is worked out at once; the move itself is made by what is given. */
    prepareMove: (asker: Asker, jobId: string, body: MoveJobBody) =>
      prepareMove(ports, asker, jobId, body),

    sendEntries: (asker: Asker, jobId: string, entries: readonly JobEntry[]) =>
      sendEntries(ports, asker, jobId, entries),

    putAsLeft: (asker: Asker, jobId: string, body: PutAsLeftBody) =>
      putAsLeft(ports, asker, jobId, body),

    delete: async (asker: Asker, jobId: string, version: number): Promise<Job> => {
      const written = await store.together(async () => {
        await refuseClosed(store, jobId, 'A closed job is part of the record and stays there.')
        return store.jobs.delete(jobId, version, stamp(asker))
      })
      return settleWritten(written, {
        missing: missingJob(jobId),
        wrongState: 'The job is deleted already.',
      })
    },

    /** @throws Refusal `wrong-state` also where another open job does the same work by now */
    restore: async (asker: Asker, jobId: string, version: number): Promise<Job> => {
      const written = await store.together(async () => {
        const job = await store.jobs.find(jobId)
        if (job && job.deletedAt !== null) await refuseSecond(store, job)
        return store.jobs.restore(jobId, version, stamp(asker))
      })
      return settleWritten(written, {
        missing: missingJob(jobId),
        wrongState: 'The job is not deleted, so there is nothing to restore.',
      })
    },
  }
}

async function refuseClosed(store: Store, jobId: string, detail: string): Promise<void> {
  const job = await store.jobs.find(jobId)
  if (job?.state === 'closed') throw new Refusal('wrong-state', detail, { current: job })
}

/** Two crews must not be sent for one piece of work. What is drafted by hand is the person's own choice. */
async function refuseSecond(
  store: Store,
  { feederId, origin, plan }: Pick<NewJob, 'feederId' | 'origin' | 'plan'>,
): Promise<void> {
  if (origin.kind === 'by hand') return
  const pole = plan.poles[0]?.pole
  const other = (await store.jobs.list(feederId)).find(
    (job) => job.state !== 'closed' && isSameOrigin(job.origin, origin) && job.poles[0] === pole,
  )
  if (!other) return
  const detail = `There is a job for this already: “${other.title}”, which is ${other.state}. Delete that one first, or have it closed.`
  throw new Refusal('wrong-state', detail)
}

function isSameOrigin(one: Job['origin'], other: Job['origin']): boolean {
  if (one.kind === 'proposal' && other.kind === 'proposal') {
    return one.proposalId === other.proposalId
  }
  return (
    one.kind === 'programme' &&
    other.kind === 'programme' &&
    one.programmeId === other.programmeId &&
    one.round === other.round
  )
}
