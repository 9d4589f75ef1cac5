import { numberOfText } from '../work/number-of-text.ts'

/** Whether a setting is left as planned, in words. */
export function settingHint(typed: string, planned: number, unit: string | undefined): string {
  const figure = unit ? `${planned} ${unit}` : String(planned)
  return numberOfText(typed) === planned ? 'As planned.' : `≠ Planned: ${figure}.`
}
