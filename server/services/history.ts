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
import { historyAsText } from './history-as-text.ts'
import type { Ports, Purgeable, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/** Of people and their tokens only those who manage them see more than that something changed. */
const OF_PEOPLE: readonly Subject[] = ['person', 'token']

export function historyService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    /** @throws Refusal `not-found`, `not-allowed`, or `malformed-request` where the feeder must be named. */
    of: async (
      asker: Asker,
      subject: Subject,
      subjectId: string,
      feederId?: string,
    ): Promise<HistoryEntry[]> => {
      if (OF_PEOPLE.includes(subject) && !mayDo(asker, 'manage people and tokens')) {
        throw new Refusal('not-allowed', `The role ${asker.role} may not see who changed people.`)
      }
      const entries = await store.history.of(subject, subjectId, feederId)
      if (entries.length === 0) {
        throw new Refusal('not-found', `The record never held the ${subject} "${subjectId}".`)
      }
      refuseSeveralFeeders(entries)
      return entries
    },

    takeOut: (query: TakeOutQuery): AsyncIterable<string> => {
      const { as, subject, feederId } = query
      const filter = { ...(subject && { subject }), ...(feederId && { feederId }) }
      return historyAsText(store.history.all(filter), as)
    },

    listDeleted: async (feederId: string): Promise<DeletedItem[]> => {
      await findFeeder(store, feederId)
      const lists = Object.values(purgeables(store)).map((kind) => kind.listDeleted(feederId))
      return (await Promise.all(lists)).flat().sort(newestFirst)
    },

    /** @throws Refusal `not-found`, `stale-version`, or `wrong-state` for what is not deleted. */
    purge: (asker: Asker, body: PurgeBody): Promise<void> =>
      store.together(async () => {
        const { subject, feederId, subjectId, version, reason } = body
        await refuseAttached(store, body)
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
    attachment: store.attachments,
  }
}

/** Files would be left hanging on what is no longer there. */
async function refuseAttached(store: Store, { subject, feederId, subjectId }: PurgeBody) {
  if (subject === 'attachment') return
  const filter = { attachedTo: subject, attachedToId: subjectId }
  const { length } = await store.attachments.list(feederId, filter)
  if (length === 0) return
  const files = length === 1 ? 'A file is' : `${length} files are`
  throw new Refusal('wrong-state', `${files} attached to it. Delete what is attached first.`)
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
