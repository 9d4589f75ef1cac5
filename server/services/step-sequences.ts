import type { PutSequenceBody } from '#contract/jobs.ts'
import type { Asker } from '#contract/rights.ts'
import { checkSequence } from '#domain/jobs/check-sequence.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { sortInWords, workLeftWithout } from '#domain/jobs/sort-of-work.ts'
import { actorOf } from './actor-of.ts'
import type { SequenceRecord } from './job-ports.ts'
import type { Ports, Store } from './ports.ts'
import { Refusal } from './refusal.ts'
import { settleWritten } from './settle-written.ts'

/** The orders of steps that the utility works by. */
export function stepSequenceService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    list: () => sequencesInUse(store),

    /**
     * Sets an order in place of one that stands, or adds one under an id that none has.
     *
     * @throws Refusal `malformed-request` naming what is wrong with the order, `stale-version`,
     * `wrong-state` where some work would be left without any order
     */
    put: async (
      asker: Asker,
      sequenceId: string,
      { version, sequence }: PutSequenceBody,
    ): Promise<SequenceRecord> => {
      refuseOtherId(sequenceId, sequence.id)
      refuseFaults(checkSequence(sequence))
      const stamp = { actor: actorOf(asker), at: clock() }
      return store.together(async () => {
        const before = await sequencesInUse(store)
        const record = settleWritten(await store.stepSequences.put(version, sequence, stamp), {
          missing: `The utility has set no order of steps "${sequenceId}" yet. Put it as version 0.`,
          wrongState: 'The order of steps cannot be set now.',
        })
        refuseTakenName(before, sequence)
        refuseGaps(before, await sequencesInUse(store))
        return record
      })
    },

    /**
     * Takes away what the utility has set; gives the orders in use from then on.
     *
     * @throws Refusal `not-found` where the utility has set no such order, `stale-version`,
     * `wrong-state` where some work would be left without any order
     */
    withdraw: async (
      asker: Asker,
      sequenceId: string,
      version: number,
    ): Promise<SequenceRecord[]> => {
      const stamp = { actor: actorOf(asker), at: clock() }
      return store.together(async () => {
        const before = await sequencesInUse(store)
        settleWritten(await store.stepSequences.delete(sequenceId, version, stamp), {
          missing: missingWords(sequenceId),
          wrongState: 'This order of steps was withdrawn before.',
        })
        const after = await sequencesInUse(store)
        refuseGaps(before, after)
        return after
      })
    },
  }
}

function missingWords(sequenceId: string): string {
  const isShipped = SHIPPED_SEQUENCES.some(({ id }) => id === sequenceId)
  return isShipped
    ? `The order of steps "${sequenceId}" is the one that comes with the program; the utility has set none in its place.`
    : `The utility has set no order of steps "${sequenceId}".`
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

/** A crew tells orders by their names. */
function refuseTakenName(
  inUse: readonly SequenceRecord[],
  { id, name }: SequenceRecord['sequence'],
): void {
  const other = inUse.find(
    ({ sequence }) => sequence.id !== id && nameKey(sequence.name) === nameKey(name),
  )
  if (!other) return
  const detail = `There is an order of steps named “${other.sequence.name}” already. Give this one another name.`
  throw new Refusal('malformed-request', detail, {
    faults: [{ at: 'body.sequence.name', what: 'is that of another order of steps' }],
  })
}

const nameKey = (name: string) => name.trim().replace(/\s+/g, ' ').toLowerCase()

/** Nobody could draft such a job any more. */
function refuseGaps(before: readonly SequenceRecord[], after: readonly SequenceRecord[]): void {
  const gaps = workLeftWithout(before, after)
  if (gaps.length === 0) return
  const detail = `No order of steps would be left to ${gaps.map(sortInWords).join(', and to ')}. Set another one for it first.`
  throw new Refusal('wrong-state', detail)
}
