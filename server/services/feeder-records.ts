import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import type { FeederRecordStore } from './bird-ports.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { settleWritten } from './settle-written.ts'

interface RecordRules<Body, ChangeBody> {
  /** "nest", as in 'has no nest "N-7"' and "The nest is deleted already". */
  readonly word: string
  /** Looks whether what is said may be kept; throws a Refusal where not, or without the feeder. */
  readonly check: (feederId: string, body: Body | ChangeBody) => Promise<void>
}

/** Use cases of a kind of record that a feeder has many of. */
export function feederRecords<Kept, Body, ChangeBody>(
  { store, clock, newId }: Pick<Ports, 'store' | 'clock' | 'newId'>,
  records: FeederRecordStore<Kept, Body, ChangeBody>,
  { word, check }: RecordRules<Body, ChangeBody>,
) {
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  const missing = (feederId: string, id: string) => `Feeder "${feederId}" has no ${word} "${id}".`
  return {
    list: async (feederId: string): Promise<Kept[]> => {
      await findFeeder(store, feederId)
      return records.list(feederId)
    },

    add: async (asker: Asker, feederId: string, body: Body): Promise<Kept> => {
      await check(feederId, body)
      return records.add(feederId, newId(), body, stamp(asker))
    },

    change: async (
      asker: Asker,
      feederId: string,
      id: string,
      version: number,
      body: ChangeBody,
    ): Promise<Kept> => {
      await check(feederId, body)
      return settleWritten(await records.change(feederId, id, version, body, stamp(asker)), {
        missing: missing(feederId, id),
        wrongState: `The ${word} is deleted; restore it before you change it.`,
      })
    },

    delete: async (asker: Asker, feederId: string, id: string, version: number): Promise<Kept> =>
      settleWritten(await records.delete(feederId, id, version, stamp(asker)), {
        missing: missing(feederId, id),
        wrongState: `The ${word} is deleted already.`,
      }),

    restore: async (asker: Asker, feederId: string, id: string, version: number): Promise<Kept> =>
      settleWritten(await records.restore(feederId, id, version, stamp(asker)), {
        missing: missing(feederId, id),
        wrongState: `The ${word} is not deleted, so there is nothing to restore.`,
      }),
  }
}
