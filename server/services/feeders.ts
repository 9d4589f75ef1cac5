import type { Actor } from '#contract/actor.ts'
import type { FeederAnswer, FeederSummary } from '#contract/feeders.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { Finding } from '#domain/feeder/finding.ts'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { authorize } from './role-rules.ts'

export function feederService({ store }: Pick<Ports, 'store'>) {
  return {
    list: (actor: Actor): Promise<FeederSummary[]> => {
      authorize(actor, 'read')
      return store.feeders.list()
    },

    /** The feeder with the protections that stand in the record now, whatever its file said. */
    get: async (actor: Actor, feederId: string, version?: number): Promise<FeederAnswer> => {
      authorize(actor, 'read')
      const stored = await findFeeder(store, feederId, version)
      const protections = (await store.protections.list(feederId)).map(protectionOf)
      return { ...stored, feeder: { ...stored.feeder, protections } }
    },

    check: async (actor: Actor, feederId: string): Promise<Finding[]> => {
      authorize(actor, 'read')
      return checkFeeder((await findFeeder(store, feederId)).feeder)
    },
  }
}

function protectionOf(record: ProtectionRecord): Protection {
  const { version: _version, changedBy: _by, changedAt: _at, deletedAt: _deleted, ...item } = record
  return item
}
