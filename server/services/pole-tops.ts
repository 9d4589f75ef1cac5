import type { ChoosePoleTopBody } from '#contract/pole-tops.ts'
import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import type { PoleTopRecord } from './bird-ports.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { refuseUnknownPole } from './refuse-unknown-pole.ts'
import { settleWritten } from './settle-written.ts'

export function poleTopService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  return {
    list: async (feederId: string): Promise<PoleTopRecord[]> => {
      await findFeeder(store, feederId)
      return store.poleTops.list(feederId)
    },

    choose: async (
      asker: Asker,
      feederId: string,
      pole: string,
      { version, ...choice }: ChoosePoleTopBody,
    ): Promise<PoleTopRecord> => {
      await refuseUnknownPole(store, feederId, pole, 'params.poleId')
      const written = await store.poleTops.choose(
        feederId,
        version,
        { ...choice, pole },
        stamp(asker),
      )
      return settleWritten(written, {
        missing: `Nothing is recorded of the top of pole "${pole}". Name version 0 to choose it.`,
        wrongState: 'It cannot be chosen as it is.',
      })
    },

    delete: async (
      asker: Asker,
      feederId: string,
      pole: string,
      version: number,
    ): Promise<PoleTopRecord> =>
      settleWritten(await store.poleTops.delete(feederId, pole, version, stamp(asker)), {
        missing: missing(feederId, pole),
        wrongState: 'What was chosen is taken back already.',
      }),

    restore: async (
      asker: Asker,
      feederId: string,
      pole: string,
      version: number,
    ): Promise<PoleTopRecord> =>
      settleWritten(await store.poleTops.restore(feederId, pole, version, stamp(asker)), {
        missing: missing(feederId, pole),
        wrongState: 'What was chosen was not taken back, so there is nothing to restore.',
      }),
  }
}

function missing(feederId: string, pole: string): string {
  return `Nothing was chosen for the top of pole "${pole}" of feeder "${feederId}".`
}
