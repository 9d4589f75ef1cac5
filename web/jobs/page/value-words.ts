import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { Asked } from '#domain/jobs/step-sequence.ts'

/** "12.5 V", "yes", "steady": a reading as it is said. */
export function valueInWords(asked: Asked, value: ReadValue | undefined): string {
  if (value === undefined || value === '') return 'not entered'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  return asked.kind === 'number' && asked.unit !== '' ? `${value} ${asked.unit}` : String(value)
}
