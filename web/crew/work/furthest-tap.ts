import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'

const POSITION_JUDGES: readonly (string | undefined)[] = [
  'position indicator at neutral',
  'control readout at neutral',
]

/** The position furthest from neutral among those that were read; null where none was. */
export function furthestTap(
  step: Step,
  values: Readonly<Record<string, ReadValue>>,
): number | null {
  const taps = step.asks
    .filter(({ judge }) => POSITION_JUDGES.includes(judge))
    .map(({ id }) => values[id])
    .filter((value) => typeof value === 'number')
  if (taps.length === 0) return null
  return taps.reduce((far, tap) => (Math.abs(tap) > Math.abs(far) ? tap : far))
}
