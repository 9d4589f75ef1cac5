import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'

/** States as the legend explains them, the most pressing first. */
export const STATE_ROWS: readonly { readonly state: PoleState; readonly words: string }[] = [
  { state: 'failed', words: 'failed: open again since an item failed' },
  { state: 'open', words: 'open: pairs can be bridged' },
  { state: 'partly done', words: 'partly done: some pairs are left' },
  { state: 'unknown', words: 'not known: nothing recorded' },
  { state: 'covered', words: 'covered: all pairs closed' },
  { state: 'separated', words: 'separated as framed' },
]
