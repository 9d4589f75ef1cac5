import { numberOfText } from '../work/number-of-text.ts'

/** Of a setting; a computed ratio has more decimals than a control shows. */
const SAME_SHARE = 0.0005

export function isAsPlanned(typed: string, planned: number): boolean {
  const read = numberOfText(typed)
  return read !== null && Math.abs(read - planned) <= SAME_SHARE * Math.max(1, Math.abs(planned))
}

/** Whether a setting is left as planned, in words. */
export function settingHint(typed: string, planned: number, unit: string | undefined): string {
  const figure = Number(planned.toFixed(3))
  if (isAsPlanned(typed, planned)) return 'As planned.'
  return `≠ Planned: ${unit ? `${figure} ${unit}` : figure}.`
}
