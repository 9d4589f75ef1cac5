import { mayMoveTo } from '#contract/job-moves.ts'
import type { MoveJobBody } from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { missingForEnd, runOf } from '#domain/jobs/job-run.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import { standingAtStart } from '#domain/jobs/pole-work.ts'
import { actorOf } from './actor-of.ts'
import { closeJob, type WorkedOut, workOutClosing } from './close-job.ts'
import { findJob, missingJob } from './find-job.ts'
import type { Job, JobMoved } from './job-ports.ts'
import { progressOf } from './job-progress.ts'
import type { Ports, Stamp } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'
import { regulatorsOf } from './wanted-job.ts'

type MovingPorts = Pick<Ports, 'store' | 'threads' | 'clock' | 'newId'>

/**
 * Gives the move of a job to another state, after what takes long of it was worked out. The move itself
 * looks whether it may be made; closing writes feeder and bird record in its transaction.
 *
 * @throws Refusal `not-found`, `stale-version`, `not-allowed` for the role, `malformed-request`
 * without a reason where one is needed, `wrong-state` where the move or the work is not there yet
 */
export async function prepareMove(
  ports: MovingPorts,
  asker: Asker,
  jobId: string,
  body: MoveJobBody,
): Promise<() => Promise<Job>> {
  const workedOut = body.to === 'closed' ? await workOutAhead(ports, asker, jobId, body) : null
  return () => ports.store.together(() => move(ports, asker, jobId, body, workedOut))
}

/** Null for what will be refused, or was done before under the same key: only the move can tell. */
async function workOutAhead(
  ports: MovingPorts,
  { role }: Asker,
  jobId: string,
  { version, to }: MoveJobBody,
): Promise<WorkedOut | null> {
  const job = await ports.store.jobs.find(jobId)
  if (!job || job.deletedAt !== null || job.version !== version) return null
  if (!moveOf(job.state, to) || !mayMoveTo(role, to)) return null
  return workOutClosing(ports, job)
}

async function move(
  ports: MovingPorts,
  asker: Asker,
  jobId: string,
  body: MoveJobBody,
  workedOut: WorkedOut | null,
): Promise<Job> {
  const { store, clock } = ports
  const { version, to, reason = '', deviceAt } = body
  const job = await mayBeMoved(store, asker, jobId, body)
  const stamp: Stamp = { actor: actorOf(asker), at: clock(), ...(deviceAt && { deviceAt }) }
  const entries = (await store.jobs.entries(jobId)).map(({ entry }) => entry)
  if (to === 'issued') await refuseOtherStanding(store, job)
  if (to === 'work done') refuseUnfinished(job, entries)
  const { feederVersionAfter } = job
  const moved: JobMoved = {
    ...{ state: to, reason, feederVersionAfter },
    ...(to === 'closed' && {
      ...(await closeJob(ports, job, entries, workedOut, stamp)),
      progress: progressOf(job.plan, entries, (await store.asLeft.find(jobId))?.asLeft ?? null),
    }),
  }
  return settleWritten(await store.jobs.move(jobId, version, moved, stamp), wordsFor(jobId))
}

function wordsFor(jobId: string) {
  return {
    missing: missingJob(jobId),
    wrongState: 'The job is deleted; restore it before you move it.',
  }
}

async function mayBeMoved(
  store: Ports['store'],
  { role }: Asker,
  jobId: string,
  { version, to, reason = '' }: MoveJobBody,
): Promise<Job> {
  const job = await findJob(store, jobId)
  if (job.version !== version) {
    return settleWritten({ status: 'stale', current: job }, wordsFor(jobId))
  }
  const known = moveOf(job.state, to)
  if (!known) {
    const detail = `A job that is ${job.state} cannot become ${to}.`
    throw new Refusal('wrong-state', detail, { current: job })
  }
  if (!mayMoveTo(role, to)) {
    throw new Refusal('not-allowed', `The role ${role} may not say that a job is ${to}.`)
  }
  if (!known.needsReason || reason !== '') return job
  throw new Refusal('malformed-request', 'Say why, so that others know what to do about it.', {
    faults: [{ at: 'body.reason', what: 'must say why' }],
  })
}

/** Its steps begin with the bank as it stood when the job was drafted. */
async function refuseOtherStanding({ feeders }: Ports['store'], job: Job): Promise<void> {
  const standing = job.plan.bank?.standing
  const stored = standing && (await feeders.find(job.feederId))
  const now = stored && regulatorsOf(stored.feeder).find(({ id }) => id === standing.id)
  if (!now) return
  const [then, by] = [standingAtStart(standing), standingAtStart(now)]
  if (then === by) return
  const detail = `Bank ${now.id} is recorded as ${by} by now, and the steps of this job begin with it ${then}. Draft the job again.`
  throw new Refusal('wrong-state', detail, { current: job })
}

function refuseUnfinished(job: Job, entries: readonly JobEntry[]): void {
  const missing = missingForEnd(runOf(job.plan, entries).run)
  if (missing.length === 0) return
  throw new Refusal('wrong-state', `The work is not done yet. ${missing.join(' ')}`, {
    current: job,
  })
}
