import type { ReadValue } from '#domain/jobs/job-entry.ts'
import type { Asked, Step } from '#domain/jobs/step-sequence.ts'
import type { Phase } from '#domain/units/phases.ts'

const MOST_LETTERS = 80

/** "step 7 of 31, B phase". */
export function placeInWords(index: number, all: number, phase: Phase | undefined): string {
  return `Step ${index + 1} of ${all}${phase ? `, ${phase} phase` : ''}`
}

/** As the outbox lists it: "Step done at pole W-742, B phase: Run the unit to neutral." */
export function stepInWords(
  what: 'done' | 'left out',
  { text }: Step,
  phase: Phase | undefined,
  poleId: string,
): string {
  const unit = phase ? `, ${phase} phase` : ''
  return `Step ${what} at pole ${poleId}${unit}: ${shortened(text)}`
}

/** The first sentence, or as much of it as fits a line. */
export function shortened(text: string): string {
  const sentence = (/^.*?[.:;](?=\s)/.exec(text)?.[0] ?? text).replace(/[:;]$/, '')
  if (sentence.length <= MOST_LETTERS) return sentence
  return `${sentence.slice(0, MOST_LETTERS).replace(/\s\S*$/, '')} …`
}

/** "yes", "7,215 V", "−3 taps", or the words themselves. */
export function valueInWords(asked: Asked, value: ReadValue): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') return value
  const figure = value.toLocaleString('en-US', { maximumFractionDigits: 3 }).replace('-', '−')
  return asked.kind === 'number' && asked.unit ? `${figure} ${asked.unit}` : figure
}
