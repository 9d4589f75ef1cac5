import { SettingsAsLeft } from '#domain/jobs/as-left.ts'
import { SETTING_FIELDS } from './setting-fields.ts'

/** As they are typed, by key; blank for what stays as it is. */
export type WantedSettings = Readonly<Record<string, string>>

export interface ReadSettings {
  /** Those that are to change; empty where nothing is typed. */
  readonly settings: Partial<SettingsAsLeft>
  /** By key, what is wrong with a figure. */
  readonly faults: Readonly<Record<string, string>>
}

/** Figures of the settings that somebody wants, or what is wrong with them. */
export function readWantedSettings(typed: WantedSettings): ReadSettings {
  const settings: Record<string, number> = {}
  const faults: Record<string, string> = {}
  for (const { key, label } of SETTING_FIELDS) {
    const text = (typed[key] ?? '').trim().replace(',', '.')
    if (text === '') continue
    const read = SettingsAsLeft.shape[key].safeParse(Number(text))
    if (read.success) settings[key] = read.data
    else faults[key] = `${label}: ${typed[key]} is out of range or no figure.`
  }
  return { settings, faults }
}
