import { feetInWords, milesInWords } from '#domain/units/length.ts'

const SHORT_WAY_M = 800

/** A distance as the crow flies for a sentence: feet as far as a few minutes' walk, then miles. */
export function wayInWords(lengthM: number): string {
  return lengthM < SHORT_WAY_M ? feetInWords(lengthM) : milesInWords(lengthM)
}
