import { ATTACHED_TO } from '#contract/attachments.ts'
import type {
  DeletedItem,
  HistoryEntry,
  PurgeBody,
  Subject,
  TakeOutQuery,
} from '#contract/history.ts'
import { type Asker, mayDo } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import { findFeeder } from './find-feeder.ts'
import { historyAsText, isOfPerson } from './history-as-text.ts'
import { maySeeAttachedTo, maySeeSubject, rightToSee } from './may-see.ts'
import type { Ports, Purgeable, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

export function historyService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    /** @throws Refusal `not-found`, `not-allowed`, or `malformed-request` where the feeder must be named. */
    of: async (
      asker: Asker,
      subject: Subject,
      subjectId: string,
      feederId?: string,
    ): Promise<HistoryEntry[]> => {
      if (!maySeeSubject(asker, subject)) throw hidden(asker, subject)
      const entries = await store.history.of(subject, subjectId, feederId)
      if (!entries.every((entry) => mayDo(asker, rightToSee(entry)))) throw hidden(asker, subject)
      if (entries.length === 0) {
        throw new Refusal('not-found', `The record never held the ${subject} "${subjectId}".`)
      }
      refuseSeveralFeeders(entries)
      return entries
    },

    /** What the asker may not see stands there without what it says, so that the chain can be followed. */
    takeOut: (asker: Asker, query: TakeOutQuery): AsyncIterable<string> => {
      const { as, subject, feederId } = query
      const filter = { ...(subject && { subject }), ...(feederId && { feederId }) }
      const isHidden = (entry: HistoryEntry) =>
        isOfPerson(entry) || !mayDo(asker, rightToSee(entry))
      return historyAsText(store.history.all(filter), as, isHidden)
    },

    listDeleted: async (asker: Asker, feederId: string): Promise<DeletedItem[]> => {
      await findFeeder(store, feederId)
      const lists = Object.values(purgeables(store)).map((kind) => kind.listDeleted(feederId))
      const items = (await Promise.all(lists)).flat()
      return (await withoutHidden(store, asker, items)).sort(newestFirst)
    },

    /** @throws Refusal `not-found`, `stale-version`, or `wrong-state` for what is not deleted. */
    purge: (asker: Asker, body: PurgeBody): Promise<void> =>
      store.together(async () => {
        const { subject, feederId, subjectId, version, reason } = body
        if (!(await maySeeThing(store, asker, body))) throw hidden(asker, subject)
        await refuseAttached(store, body)
        await refuseWorkedOn(store, body)
        const stamp = { actor: actorOf(asker), at: clock() }
        const kind = purgeables(store)[subject]
        settleWritten(await kind.purge(feederId, subjectId, version, reason, stamp), {
          missing: `Feeder "${feederId}" has no ${subject} "${subjectId}".`,
          wrongState: 'Only what was deleted can be purged. Delete it first.',
        })
      }),
  }
}

function purgeables(store: Store): Readonly<Record<PurgeBody['subject'], Purgeable>> {
  return {
    proposal: store.proposals,
    protection: store.protections,
    nest: store.nests,
    incident: store.incidents,
    'pole-top': store.poleTops,
    programme: store.programmes,
    job: store.jobs,
    attachment: store.attachments,
  }
}

function hidden({ role }: Asker, subject: Subject): Refusal {
  const what = subject === 'person' || subject === 'token' ? 'people' : `this ${subject}`
  return new Refusal('not-allowed', `The role ${role} may not see who changed ${what}.`)
}

/** A file on a nest, a find or a job is hidden with it. */
async function maySeeThing(
  store: Store,
  asker: Asker,
  { subject, subjectId }: Pick<PurgeBody, 'subjectId'> & { readonly subject: Subject },
): Promise<boolean> {
  if (!maySeeSubject(asker, subject)) return false
  if (subject !== 'attachment' || ATTACHED_TO.every((to) => maySeeAttachedTo(asker, to)))
    return true
  const file = await store.attachments.find(subjectId)
  return file === null || maySeeAttachedTo(asker, file.attachedTo)
}

async function withoutHidden(
  store: Store,
  asker: Asker,
  items: readonly DeletedItem[],
): Promise<DeletedItem[]> {
  const seen = await Promise.all(items.map((item) => maySeeThing(store, asker, item)))
  return items.filter((_, index) => seen[index])
}

/** Files would be left hanging on what is no longer there. */
async function refuseAttached(store: Store, { subject, feederId, subjectId }: PurgeBody) {
  const attachedTo = ATTACHED_TO.find((holder) => holder === subject)
  if (attachedTo === undefined) return
  const filter = { attachedTo, attachedToId: subjectId }
  const { length } = await store.attachments.list(feederId, filter)
  if (length === 0) return
  const files = length === 1 ? 'A file is' : `${length} files are`
  throw new Refusal('wrong-state', `${files} attached to it. Delete what is attached first.`)
}

/** What was done in the field is never taken out, and so neither is the job that it was done for. */
async function refuseWorkedOn(store: Store, { subject, subjectId }: PurgeBody): Promise<void> {
  if (subject !== 'job') return
  const entries = await store.jobs.entries(subjectId)
  const asLeft = await store.asLeft.find(subjectId)
  if (entries.length === 0 && asLeft === null) return
  const detail =
    'Work in the field was recorded for this job, and that record is kept for good. The job may stay deleted.'
  throw new Refusal('wrong-state', detail)
}

/** Ids of some kinds are unique within a feeder only. */
function refuseSeveralFeeders(entries: readonly HistoryEntry[]): void {
  const feeders = new Set(entries.map(({ feederId }) => feederId))
  if (feeders.size < 2) return
  const names = [...feeders].join(', ')
  throw new Refusal('malformed-request', `Things of this id are on the feeders ${names}.`, {
    faults: [{ at: 'query.feederId', what: 'must name one of the feeders' }],
  })
}

function newestFirst(left: DeletedItem, right: DeletedItem): number {
  if (left.deletedAt === right.deletedAt) return 0
  return left.deletedAt < right.deletedAt ? 1 : -1
}
