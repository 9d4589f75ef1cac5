import type { Feeder } from '#domain/feeder/feeder.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import { leftOutWork } from '#domain/jobs/bird-work-left-out.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Job } from './job-ports.ts'
import type { Ports, Stamp, Store } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'
import type { Built } from './work-ports.ts'

type ClosingPorts = Pick<Ports, 'store' | 'threads'>

/** What a job leaves, worked out on a state of the record. */
export interface WorkedOut {
  /** Of the newest entry about the feeder at that time: with another one, it counts no more. */
  readonly recordHash: string
  readonly built: Built
}

/** What closing wrote. */
export interface Closed {
  /** The new version of the feeder, null where the job changed nothing of it. */
  readonly feederVersionAfter: number | null
  /** What was not taken over as it was left, and what somebody should look at, in sentences. */
  readonly closingNotes: readonly string[]
}

/**
 * What the job leaves on the feeder as it is recorded now. For a large feeder this takes seconds, so it
 * is worked out in a thread, and before the transaction that closes the job.
 *
 * @throws Refusal `wrong-state` where nobody signed for what was left, the feeder lacks its place, or
 * it would have an error with the bank
 */
export async function workOutClosing(
  { store, threads }: ClosingPorts,
  job: Job,
): Promise<WorkedOut> {
  const recordHash = await store.history.newestHashOf(job.feederId)
  const asLeft = await signedAsLeft(store, job)
  const { feeder } = await recordedFeeder(store, job.feederId)
  refuseLostPlaces(feeder, job.plan, asLeft)
  const built = await threads.build({ feeder, plan: job.plan, asLeft })
  refuseUnbuilt(feeder, built, job.plan)
  return { recordHash, built }
}

/**
 * Writes what was built: a new version of the feeder where the job changed it, and what was put on or
 * taken off for birds. Only in the transaction that closes the job.
 *
 * @param entries of the field, in their order
 * @param before null where it was not worked out yet
 * @throws Refusal as `workOutClosing`, where the record changed since
 */
export async function closeJob(
  ports: ClosingPorts & Pick<Ports, 'newId'>,
  job: Job,
  entries: readonly JobEntry[],
  before: WorkedOut | null,
  stamp: Stamp,
): Promise<Closed> {
  const { store, newId } = ports
  const { feederId } = job
  const isCurrent = before?.recordHash === (await store.history.newestHashOf(feederId))
  const { built } = before && isCurrent ? before : await workOutClosing(ports, job)
  for (const item of built.addItems) await store.protections.add(feederId, newId(), item, stamp)
  await endItems(store, job, built.endItems, stamp)
  const feederVersionAfter = await keepEquipment(store, feederId, built.equipment, stamp)
  const asLeft = await signedAsLeft(store, job)
  return {
    feederVersionAfter,
    closingNotes: [...built.notes, ...doubtfulNotes(asLeft, entries)],
  }
}

/** What is in the bird record now although the field said that its step was left out. */
function doubtfulNotes(asLeft: AsLeft, entries: readonly JobEntry[]): string[] {
  return leftOutWork(asLeft, entries).map(
    ({ what, words }) =>
      `Recorded as on: ${what}, ${words}. Have somebody look whether it is there.`,
  )
}

async function signedAsLeft(store: Store, job: Job): Promise<AsLeft> {
  const record = await store.asLeft.find(job.id)
  if (!record) {
    const detail = 'Nothing was said of what the crew left at the poles. That is entered first.'
    throw new Refusal('wrong-state', detail, { current: job })
  }
  if (record.asLeft.signedBy !== '') return record.asLeft
  const detail = 'Nobody signed for what was left at the poles. Have the crew sign for it first.'
  throw new Refusal('wrong-state', detail, { current: job })
}

/** The feeder may have changed since the plan was made. */
function refuseLostPlaces({ poles, spans }: Feeder, plan: JobPlan, asLeft: AsLeft): void {
  const known = new Set(poles.map(({ id }) => id))
  const written = asLeft.measures.filter(({ isDone }) => isDone).map(({ pole }) => pole)
  const gone = [...new Set(written)].filter((pole) => !known.has(pole))
  if (gone.length > 0) {
    throw lost(`The feeder no longer has what the job was done at: ${gone.join(', ')}.`)
  }
  const { bank, kind } = plan
  if (!bank || kind === 'remove a bank') return
  const { span, pole } = bank.regulator
  if (spans.some(({ id, from }) => id === span && from === pole)) return
  throw lost(`The bank stands in span ${span} at pole ${pole}, which the feeder no longer has.`)
}

function lost(what: string): Refusal {
  const detail = `${what} Put the feeder in the record right, then close the job.`
  return new Refusal('wrong-state', detail)
}

/** The equipment stays as it was where the feeder would have an error with the bank. */
function refuseUnbuilt(before: Feeder, { equipment, notes }: Built, { bank, kind }: JobPlan): void {
  if (!bank || equipment !== null) return
  const oldId = (bank.standing ?? bank.regulator).id
  const isGone = !before.equipment.some(({ id }) => id === oldId)
  if (kind === 'remove a bank' && isGone) return
  throw new Refusal('wrong-state', `The job cannot be closed as it was left. ${notes.join(' ')}`)
}

/** Each from the day of the work on. */
async function endItems(
  store: Store,
  { id: jobId, feederId }: Job,
  ids: readonly string[],
  stamp: Stamp,
): Promise<void> {
  if (ids.length === 0) return
  const on = (await store.asLeft.find(jobId))?.asLeft.on ?? stamp.at.slice(0, 10)
  const items = (await store.protections.list(feederId)).filter(({ id }) => ids.includes(id))
  for (const item of items) {
    const { id, version, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...body } = item
    const ended = { ...body, state: 'removed' as const, on }
    settleWritten(await store.protections.change(feederId, id, version, ended, stamp), {
      missing: `Feeder "${feederId}" has no guard, cover or perch "${id}".`,
      wrongState: 'The item is deleted.',
    })
  }
}

/** As a new version of the feeder, with its origin, and with all else that its file came with. */
async function keepEquipment(
  store: Store,
  feederId: string,
  equipment: Built['equipment'],
  stamp: Stamp,
): Promise<number | null> {
  if (equipment === null) return null
  const stored = await store.feeders.find(feederId)
  if (!stored || isSame(stored.feeder.equipment, equipment)) return null
  return store.feeders.add({ ...stored.feeder, equipment }, stored.origin, stamp)
}

/** A job may leave a bank just as it stood. */
function isSame(before: Feeder['equipment'], after: Feeder['equipment']): boolean {
  return JSON.stringify(before) === JSON.stringify(after)
}
