import type {
  ChangeProtectionBody,
  ProtectionBody,
  ProtectionRecord,
} from '#contract/protections.ts'
import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { refuseUnknownPole } from './refuse-unknown-pole.ts'
import { settleWritten } from './settle-written.ts'

export function protectionService({
  store,
  clock,
  newId,
}: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  return {
    list: async (feederId: string): Promise<ProtectionRecord[]> => {
      await findFeeder(store, feederId)
      return store.protections.list(feederId)
    },

    add: async (
      asker: Asker,
      feederId: string,
      body: ProtectionBody,
    ): Promise<ProtectionRecord> => {
      await refuseUnknownPole(store, feederId, body.pole)
      return store.protections.add(feederId, newId(), body, stamp(asker))
    },

    change: async (
      asker: Asker,
      feederId: string,
      id: string,
      { version, ...body }: ChangeProtectionBody,
    ): Promise<ProtectionRecord> => {
      await refuseUnknownPole(store, feederId, body.pole)
      const written = await store.protections.change(feederId, id, version, body, stamp(asker))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is deleted; restore it before you change it.',
      })
    },

    delete: async (
      asker: Asker,
      feederId: string,
      id: string,
      version: number,
    ): Promise<ProtectionRecord> => {
      const written = await store.protections.delete(feederId, id, version, stamp(asker))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is deleted already.',
      })
    },

    restore: async (
      asker: Asker,
      feederId: string,
      id: string,
      version: number,
    ): Promise<ProtectionRecord> => {
      const written = await store.protections.restore(feederId, id, version, stamp(asker))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is not deleted, so there is nothing to restore.',
      })
    },
  }
}

function missing(feederId: string, id: string): string {
  return `Feeder "${feederId}" has no guard, cover or perch "${id}".`
}
