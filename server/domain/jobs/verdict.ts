import type { ReadValue } from './job-entry.ts'

/** What a reading is worth: `doubtful` may be right and needs a word why, `bad` is not. */
export interface Judged {
  readonly verdict: 'good' | 'doubtful' | 'bad'
  readonly words: string
}

export function readNumber(value: ReadValue): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null
}
