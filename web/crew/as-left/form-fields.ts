import type { SettingsAsLeft, UnitAsLeft } from '#domain/jobs/as-left.ts'

interface FormField<Key> {
  readonly key: Key
  readonly label: string
  readonly unit?: string
  readonly kind: 'text' | 'number' | 'tap'
}

export type UnitField = FormField<Exclude<keyof UnitAsLeft, 'phase'>>

/** Volts are those of the control, on the 120 V base, as the steps ask for them. */
export const UNIT_FIELDS: readonly UnitField[] = [
  { key: 'serialNumber', label: 'Serial number', kind: 'text' },
  { key: 'nameplate', label: 'Nameplate, in its own words', kind: 'text' },
  { key: 'ratingKva', label: 'Rating', unit: 'kVA', kind: 'number' },
  { key: 'ratingA', label: 'Rated current', unit: 'A', kind: 'number' },
  { key: 'tapFound', label: 'Tap found', unit: 'steps', kind: 'tap' },
  { key: 'tapLeft', label: 'Tap left', unit: 'steps', kind: 'tap' },
  { key: 'counterFound', label: 'Counter found', kind: 'number' },
  { key: 'counterLeft', label: 'Counter left', kind: 'number' },
  { key: 'sourceVBefore', label: 'Source volts before', unit: 'V on 120', kind: 'number' },
  { key: 'loadVBefore', label: 'Load volts before', unit: 'V on 120', kind: 'number' },
  { key: 'sourceVAfter', label: 'Source volts after', unit: 'V on 120', kind: 'number' },
  { key: 'loadVAfter', label: 'Load volts after', unit: 'V on 120', kind: 'number' },
  { key: 'ampsAfter', label: 'Current after', unit: 'A', kind: 'number' },
]

export type SettingField = FormField<keyof SettingsAsLeft>

export const SETTING_FIELDS: readonly SettingField[] = [
  { key: 'bandCentreV', label: 'Band centre', unit: 'V', kind: 'number' },
  { key: 'bandwidthV', label: 'Bandwidth', unit: 'V', kind: 'number' },
  { key: 'delayS', label: 'Time delay', unit: 's', kind: 'number' },
  { key: 'rV', label: 'Line drop R', unit: 'V', kind: 'tap' },
  { key: 'xV', label: 'Line drop X', unit: 'V', kind: 'tap' },
  { key: 'ptRatio', label: 'Potential transformer ratio', kind: 'number' },
  { key: 'ctPrimaryA', label: 'Current transformer primary', unit: 'A', kind: 'number' },
  { key: 'maxRaise', label: 'Most steps raise', kind: 'number' },
  { key: 'maxLower', label: 'Most steps lower', kind: 'number' },
]

export const MEASURE_FIELDS = [
  { key: 'isDone', label: 'done or not' },
  { key: 'why', label: 'why not' },
  { key: 'materialClass', label: 'material' },
] as const
