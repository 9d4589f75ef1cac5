import type { Actor } from '#contract/actor.ts'
import type {
  ChangeProtectionBody,
  ProtectionBody,
  ProtectionChange,
  ProtectionRecord,
} from '#contract/protections.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { authorize } from './role-rules.ts'
import { settleWritten } from './settle-written.ts'

export function protectionService({
  store,
  clock,
  newId,
}: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  const stamp = (actor: Actor) => ({ actor, at: clock() })
  return {
    list: async (actor: Actor, feederId: string): Promise<ProtectionRecord[]> => {
      authorize(actor, 'read')
      await findFeeder(store, feederId)
      return store.protections.list(feederId)
    },

    add: async (
      actor: Actor,
      feederId: string,
      body: ProtectionBody,
    ): Promise<ProtectionRecord> => {
      authorize(actor, 'record a guard, cover or perch')
      await refuseUnknownPole(store, feederId, body.pole)
      return store.protections.add(feederId, newId(), body, stamp(actor))
    },

    change: async (
      actor: Actor,
      feederId: string,
      id: string,
      { version, ...body }: ChangeProtectionBody,
    ): Promise<ProtectionRecord> => {
      authorize(actor, 'change a guard, cover or perch')
      await refuseUnknownPole(store, feederId, body.pole)
      const written = await store.protections.change(feederId, id, version, body, stamp(actor))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is deleted; restore it before you change it.',
      })
    },

    delete: async (
      actor: Actor,
      feederId: string,
      id: string,
      version?: number,
    ): Promise<ProtectionRecord> => {
      authorize(actor, 'delete or restore a guard, cover or perch')
      const written = await store.protections.delete(feederId, id, version, stamp(actor))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is deleted already.',
      })
    },

    restore: async (actor: Actor, feederId: string, id: string): Promise<ProtectionRecord> => {
      authorize(actor, 'delete or restore a guard, cover or perch')
      const written = await store.protections.restore(feederId, id, stamp(actor))
      return settleWritten(written, {
        missing: missing(feederId, id),
        wrongState: 'The item is not deleted, so there is nothing to restore.',
      })
    },

    history: async (actor: Actor, feederId: string, id: string): Promise<ProtectionChange[]> => {
      authorize(actor, 'read')
      const changes = await store.protections.history(feederId, id)
      if (changes.length === 0) throw new Refusal('not-found', missing(feederId, id))
      return changes
    },
  }
}

function missing(feederId: string, id: string): string {
  return `Feeder "${feederId}" has no guard, cover or perch "${id}".`
}

async function refuseUnknownPole(store: Store, feederId: string, pole: string): Promise<void> {
  const { feeder } = await findFeeder(store, feederId)
  if (feeder.poles.some(({ id }) => id === pole)) return
  throw new Refusal('malformed-request', `Feeder "${feederId}" has no pole "${pole}".`, {
    faults: [{ at: 'body.pole', what: 'names no pole of the feeder' }],
  })
}
