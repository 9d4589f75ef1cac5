import type { Feeder } from '#domain/feeder/feeder.ts'
import { type AsBuilt, asBuilt } from '#domain/jobs/as-built.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Job } from './job-ports.ts'
import type { Ports, Stamp } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/** What closing wrote. */
export interface Closed {
  /** The new version of the feeder, null where the job changed nothing of it. */
  readonly feederVersionAfter: number | null
  /** What was not taken over as it was left, in sentences. */
  readonly closingNotes: readonly string[]
}

/**
 * Writes what was built: a new version of the feeder as it is recorded now, where the job changed it,
 * and what was put on or taken off for birds. Only in the transaction that closes the job.
 *
 * @throws Refusal `wrong-state` where nobody signed for what was left, the feeder lacks its place, or
 * it could not be solved with the bank
 */
export async function closeJob(
  { store, newId }: Pick<Ports, 'store' | 'newId'>,
  job: Job,
  stamp: Stamp,
): Promise<Closed> {
  const asLeft = await signedAsLeft(store, job)
  const { feeder, origin } = await recordedFeeder(store, job.feederId)
  refuseLostPlaces(feeder, job.plan, asLeft)
  const built = asBuilt(feeder, job.plan, asLeft)
  refuseUnbuilt(feeder, built, job.plan)
  for (const item of built.addItems) {
    await store.protections.add(job.feederId, newId(), item, stamp)
  }
  await endItems(store, job.feederId, built.endItems, asLeft, stamp)
  const feederVersionAfter = changesLine(feeder, built.feeder)
    ? await store.feeders.add(await asOfFile(store, built.feeder), origin, stamp)
    : null
  return { feederVersionAfter, closingNotes: built.notes }
}

async function signedAsLeft(store: Ports['store'], job: Job): Promise<AsLeft> {
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
  return new Refusal(
    'wrong-state',
    `${what} Put the feeder in the record right, then close the job.`,
  )
}

/** The feeder comes back as it was where it would have an error with the bank. */
function refuseUnbuilt(before: Feeder, { feeder, notes }: AsBuilt, { bank, kind }: JobPlan): void {
  if (!bank || feeder !== before) return
  const oldId = (bank.standing ?? bank.regulator).id
  const isGone = !before.equipment.some(({ id }) => id === oldId)
  if (kind === 'remove a bank' && isGone) return
  throw new Refusal('wrong-state', `The job cannot be closed as it was left. ${notes.join(' ')}`)
}

async function endItems(
  store: Ports['store'],
  feederId: string,
  ids: readonly string[],
  { on }: AsLeft,
  stamp: Stamp,
): Promise<void> {
  if (ids.length === 0) return
  const items = new Map((await store.protections.list(feederId)).map((item) => [item.id, item]))
  for (const id of ids) {
    const item = items.get(id)
    if (!item) continue
    const { id: _id, version, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...body } = item
    const ended = { ...body, state: 'removed' as const, on }
    settleWritten(await store.protections.change(feederId, id, version, ended, stamp), {
      missing: `Feeder "${feederId}" has no guard, cover or perch "${id}".`,
      wrongState: 'The item is deleted.',
    })
  }
}

/** Items, nests and finds are kept in the record, not in versions of the feeder. */
function changesLine(before: Feeder, after: Feeder): boolean {
  const text = ({ protections: _items, nests: _nests, incidents: _finds, ...line }: Feeder) =>
    JSON.stringify(line)
  return text(before) !== text(after)
}

/** With the items, nests and finds that the version before it came with. */
async function asOfFile(store: Ports['store'], built: Feeder): Promise<Feeder> {
  const before = await store.feeders.find(built.header.id)
  if (!before) return built
  const { protections, nests, incidents } = before.feeder
  return { ...built, protections, nests, incidents }
}
