import type { FeederAnswer, FeederSummary } from '#contract/feeders.ts'
import { type Asker, mayDo } from '#contract/rights.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import type { Ports } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'

export function feederService({ store }: Pick<Ports, 'store'>) {
  return {
    list: (): Promise<FeederSummary[]> => store.feeders.list(),

    /** The feeder with the items, nests and finds that stand in the record now. */
    get: async (asker: Asker, feederId: string, version?: number): Promise<FeederAnswer> => {
      const stored = await recordedFeeder(store, feederId, version)
      return { ...stored, feeder: asSeenBy(asker, stored.feeder) }
    },

    /** Changes whenever `get` would give the same asker something else. */
    stateOf: (feederId: string): Promise<string> => store.history.newestHashOf(feederId),

    check: async (asker: Asker, feederId: string): Promise<Finding[]> =>
      checkFeeder(asSeenBy(asker, (await recordedFeeder(store, feederId)).feeder)),
  }
}

/** Where birds nest and where they were hurt is not for everybody: it can be used to find them. */
function asSeenBy(asker: Asker, feeder: Feeder): Feeder {
  if (mayDo(asker, 'see nests and incidents')) return feeder
  return { ...feeder, nests: [], incidents: [] }
}
