import type { ReadValue } from './job-entry.ts'

/** What a reading is worth: `doubtful` may be right and needs a word why, `bad` is not. */
export interface Judged {
  readonly verdict: 'good' | 'doubtful' | 'bad'
  /** The verdict in a short sentence or two, for where there is little room. */
  readonly words: string
  /** The rest, one sentence each: where the figure is from, what would fit, what to do. */
  readonly more?: readonly string[]
}

const judged =
  (verdict: Judged['verdict']) =>
  (words: string, ...more: readonly string[]): Judged => ({
    verdict,
    words,
    ...(more.length > 0 && { more }),
  })

export const good = judged('good')
export const doubtful = judged('doubtful')
export const bad = judged('bad')

export function inFull({ words, more = [] }: Pick<Judged, 'words' | 'more'>): string {
  return [words, ...more].join(' ')
}

export function readNumber(value: ReadValue): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null
}
