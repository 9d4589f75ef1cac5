import { z } from 'zod'
import type { BirdSettingsRecord } from '#contract/bird-settings.ts'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import { keptDrafts } from '../../record/kept-drafts.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { SETTINGS_FIELDS } from './settings-fields.ts'

/**
 * What is being typed: settings that need not be whole yet, as an entry whose source is still
 * empty. They are checked when they are saved.
 */
export const SettingsDraft = z.object({
  settings: z.custom<BirdSettings>((value) => typeof value === 'object' && value !== null),
  version: z.number(),
  base: z.record(z.string(), z.string()),
})
export type SettingsDraft = z.infer<typeof SettingsDraft>

/** The settings are one record for the whole utility; this is its id in the history. */
export const SETTINGS_KEY = 'utility'
export const settingsDrafts = keptDrafts('crossarm.bird-settings-draft', SettingsDraft)

export function draftOfSettings({ settings, version }: BirdSettingsRecord): SettingsDraft {
  return { settings, version, base: fieldsOfSettings(settings) }
}

/** Each part of the settings as text that can be compared. */
export function fieldsOfSettings(settings: BirdSettings): Fields {
  return Object.fromEntries(
    SETTINGS_FIELDS.map(({ key }) => [
      key,
      JSON.stringify(settings[key as keyof BirdSettings]) ?? '',
    ]),
  )
}

/** The settings that say what was chosen of two versions, and follow on the newer one. */
export function draftOfChosenSettings(chosen: Fields, newer: BirdSettingsRecord): SettingsDraft {
  const parts = Object.entries(chosen)
    .filter(([, text]) => text !== '')
    .map(([key, text]): [string, unknown] => [key, JSON.parse(text)])
  const settings = BirdSettings.parse(Object.fromEntries(parts))
  return { settings, version: newer.version, base: fieldsOfSettings(newer.settings) }
}
