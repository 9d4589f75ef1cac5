import type { PutSequenceBody } from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import { checkSequence } from '#domain/jobs/check-sequence.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { actorOf } from './actor-of.ts'
import type { SequenceRecord } from './job-ports.ts'
import type { Ports, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/** The orders of steps that the utility works by. */
export function stepSequenceService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    list: () => sequencesInUse(store),

    /** @throws Refusal `malformed-request` naming what is wrong with the order, `stale-version` */
    put: async (
      asker: Asker,
      sequenceId: string,
      { version, sequence }: PutSequenceBody,
    ): Promise<SequenceRecord> => {
      refuseOtherId(sequenceId, sequence.id)
      refuseFaults(checkSequence(sequence))
      const stamp = { actor: actorOf(asker), at: clock() }
      return settleWritten(await store.stepSequences.put(version, sequence, stamp), {
        missing: `The utility has set no order of steps "${sequenceId}" yet. Put it as version 0.`,
        wrongState: 'The order of steps cannot be set now.',
      })
    },

    /** @throws Refusal `not-found` where the utility has set no such order, `stale-version` */
    withdraw: async (
      asker: Asker,
      sequenceId: string,
      version: number,
    ): Promise<SequenceRecord[]> => {
      const stamp = { actor: actorOf(asker), at: clock() }
      settleWritten(await store.stepSequences.delete(sequenceId, version, stamp), {
        missing: `The utility has set no order of steps "${sequenceId}".`,
        wrongState: 'This order of steps was withdrawn before.',
      })
      return sequencesInUse(store)
    },
  }
}

/** Those that come with the program, each replaced where the utility has set its own; by id. */
export async function sequencesInUse(
  store: Pick<Store, 'stepSequences'>,
): Promise<SequenceRecord[]> {
  const own = await store.stepSequences.list()
  const ownIds = new Set(own.map(({ sequence }) => sequence.id))
  const shipped = SHIPPED_SEQUENCES.filter(({ id }) => !ownIds.has(id)).map(
    (sequence): SequenceRecord => ({ sequence, version: 0, changedBy: null, changedAt: null }),
  )
  return [...own, ...shipped].sort((a, b) => (a.sequence.id < b.sequence.id ? -1 : 1))
}

function refuseOtherId(addressed: string, given: string): void {
  if (addressed === given) return
  throw new Refusal('malformed-request', 'Address and body name different orders of steps.', {
    faults: [{ at: 'body.sequence.id', what: `must be "${addressed}", as in the address` }],
  })
}

function refuseFaults(faults: readonly string[]): void {
  if (faults.length === 0) return
  throw new Refusal('malformed-request', `The order of steps cannot be set: ${faults.join(' ')}`, {
    faults: faults.map((what) => ({ at: 'body.sequence', what })),
  })
}
