import { mayMoveTo } from '#contract/job-moves.ts'
import type { MoveJobBody } from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { missingForEnd, runOf } from '#domain/jobs/job-run.ts'
import { moveOf } from '#domain/jobs/job-state.ts'
import { actorOf } from './actor-of.ts'
import { closeJob } from './close-job.ts'
import { findJob, missingJob } from './find-job.ts'
import type { Job } from './job-ports.ts'
import { progressOf } from './job-progress.ts'
import type { Ports, Stamp } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/**
 * Moves a job to another state. Closing writes feeder and bird record in the same transaction.
 *
 * @throws Refusal `not-found`, `stale-version`, `not-allowed` for the role, `malformed-request`
 * without a reason where one is needed, `wrong-state` where the move or the work is not there yet
 */
export function moveJob(
  ports: Pick<Ports, 'store' | 'clock' | 'newId'>,
  asker: Asker,
  jobId: string,
  { version, to, reason = '', deviceAt }: MoveJobBody,
): Promise<Job> {
  const { store, clock } = ports
  return store.together(async () => {
    const job = await findJob(store, jobId)
    if (job.version !== version) return settleWritten({ status: 'stale', current: job }, WORDS)
    refuseMove(asker, job, to, reason)
    const stamp: Stamp = { actor: actorOf(asker), at: clock(), ...(deviceAt && { deviceAt }) }
    const entries = (await store.jobs.entries(jobId)).map(({ entry }) => entry)
    if (to === 'work done') refuseUnfinished(job, entries)
    const { feederVersionAfter } = job
    const closed =
      to === 'closed'
        ? { ...(await closeJob(ports, job, stamp)), progress: progressOf(job.plan, entries) }
        : { feederVersionAfter }
    const moved = { state: to, reason, ...closed }
    return settleWritten(await store.jobs.move(jobId, version, moved, stamp), {
      ...WORDS,
      missing: missingJob(jobId),
    })
  })
}

const WORDS = {
  missing: 'There is no such job.',
  wrongState: 'The job is deleted; restore it before you move it.',
}

function refuseMove({ role }: Asker, job: Job, to: Job['state'], reason: string): void {
  const move = moveOf(job.state, to)
  if (!move) {
    const detail = `A job that is ${job.state} cannot become ${to}.`
    throw new Refusal('wrong-state', detail, { current: job })
  }
  if (!mayMoveTo(role, to)) {
    throw new Refusal('not-allowed', `The role ${role} may not say that a job is ${to}.`)
  }
  if (!move.needsReason || reason !== '') return
  throw new Refusal('malformed-request', 'Say why, so that others know what to do about it.', {
    faults: [{ at: 'body.reason', what: 'must say why' }],
  })
}

function refuseUnfinished(job: Job, entries: readonly JobEntry[]): void {
  const missing = missingForEnd(runOf(job.plan, entries).run)
  if (missing.length === 0) return
  throw new Refusal('wrong-state', `The work is not done yet. ${missing.join(' ')}`, {
    current: job,
  })
}
