import type { ChangeBirdSettingsBody } from '#contract/bird-settings.ts'
import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import type { BirdSettingsRecord } from './bird-ports.ts'
import type { Ports } from './ports.ts'
import { settleWritten } from './settle-written.ts'

/** What the bird work of the whole utility goes by: one record. */
export function birdSettingsService({ store, clock }: Pick<Ports, 'store' | 'clock'>) {
  return {
    get: (): Promise<BirdSettingsRecord> => store.birdSettings.get(),

    change: async (
      asker: Asker,
      { version, settings }: ChangeBirdSettingsBody,
    ): Promise<BirdSettingsRecord> => {
      const stamp = { actor: actorOf(asker), at: clock() }
      return settleWritten(await store.birdSettings.change(version, settings, stamp), {
        missing: 'Nothing was set yet. Name version 0 to set it.',
        wrongState: 'It cannot be changed as it is.',
      })
    },
  }
}
