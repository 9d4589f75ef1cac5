import type { SettingsAsLeft } from '#domain/jobs/as-left.ts'

export interface SettingField {
  readonly key: keyof SettingsAsLeft
  readonly label: string
  readonly unit?: string
  /** `tap` for what may lie below zero. */
  readonly kind: 'number' | 'tap'
}

/** Settings of a bank's controls in the order of a form; volts are those of the control, on the 120 V base. */
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
