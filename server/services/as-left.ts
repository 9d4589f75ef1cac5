import type { AsLeftRecord, PutAsLeftBody } from '#contract/jobs.ts'
import type { InputFault } from '#contract/problem.ts'
import type { Asker } from '#contract/rights.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import { doneThoughLeftOut } from '#domain/jobs/bird-work-left-out.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { actorOf } from './actor-of.ts'
import { findJob, missingJob } from './find-job.ts'
import type { Job } from './job-ports.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/**
 * Keeps what stands at the poles of a job when the crew leaves.
 *
 * @throws Refusal `not-found`, `wrong-state` outside the field, `stale-version` with what stands, or
 * `malformed-request` naming what the job does not have, or what is said to be done without a word on
 * its step that was left out
 */
export function putAsLeft(
  { store, clock }: Pick<Ports, 'store' | 'clock'>,
  asker: Asker,
  jobId: string,
  { version, asLeft, deviceAt }: PutAsLeftBody,
): Promise<AsLeftRecord> {
  return store.together(async () => {
    const job = await findJob(store, jobId)
    refuseOtherStates(job)
    refuseForeign(job.plan, asLeft)
    refuseUnsaid(
      asLeft,
      (await store.jobs.entries(jobId)).map(({ entry }) => entry),
    )
    const stamp = { actor: actorOf(asker), at: clock(), ...(deviceAt && { deviceAt }) }
    return settleWritten(await store.asLeft.put(job, version, asLeft, stamp), {
      missing: missingJob(jobId),
      wrongState: 'What was left at the poles cannot be changed now.',
    })
  })
}

function refuseOtherStates({ state }: Job): void {
  if (state === 'in the field' || state === 'work done') return
  const detail =
    state === 'closed'
      ? 'The job is closed, so what was left at the poles stands as it is.'
      : `The job is ${state}. What was left is entered while it is in the field, or until it is closed.`
  throw new Refusal('wrong-state', detail)
}

function refuseForeign(plan: JobPlan, { units, measures }: AsLeft): void {
  const poles = new Set(plan.poles.map(({ pole }) => pole))
  const phases = plan.bank?.regulator.phases ?? ''
  const faults: InputFault[] = [
    ...measures.flatMap(({ pole }, index) =>
      poles.has(pole)
        ? []
        : [{ at: `body.asLeft.measures.${index}.pole`, what: 'names no pole of the job' }],
    ),
    ...units.flatMap(({ phase }, index) =>
      phases.includes(phase)
        ? []
        : [{ at: `body.asLeft.units.${index}.phase`, what: 'names no unit of the bank' }],
    ),
  ]
  if (faults.length === 0) return
  throw new Refusal('malformed-request', 'What was left names what the job does not have.', {
    faults,
  })
}

function refuseUnsaid(asLeft: AsLeft, entries: readonly JobEntry[]): void {
  const faults = doneThoughLeftOut(asLeft, entries)
    .filter(({ measure }) => !measure.why?.trim())
    .map(({ measure }) => ({
      at: `body.asLeft.measures.${asLeft.measures.indexOf(measure)}.why`,
      what: 'must say how it was done, since its step was left out',
    }))
  if (faults.length === 0) return
  const detail =
    'Bird work is said to be done whose step was left out. Say how that comes, or that it was not done.'
  throw new Refusal('malformed-request', detail, { faults })
}
