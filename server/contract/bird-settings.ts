import { z } from 'zod'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { Actor } from './actor.ts'

/** `version` is the one that the person saw, 0 where the utility has set nothing yet. */
export const ChangeBirdSettingsBody = z.object({
  settings: BirdSettings,
  version: z.number().int().min(0),
})

/** Version 0, by nobody, where the utility has set nothing yet. */
export const BirdSettingsRecord = z.object({
  settings: BirdSettings,
  version: z.number().int().min(0),
  changedBy: Actor.nullable(),
  changedAt: z.iso.datetime().nullable(),
})

export type ChangeBirdSettingsBody = z.infer<typeof ChangeBirdSettingsBody>
export type BirdSettingsRecord = z.infer<typeof BirdSettingsRecord>
