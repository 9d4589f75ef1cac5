import type { TakeOutQuery } from '#contract/history.ts'
import { call } from './call.ts'
import { handOver } from './hand-over.ts'

/** Fetches the history as a file and hands it to the browser to be saved. */
export async function takeOutHistory(query: TakeOutQuery): Promise<void> {
  const file = await call('takeOutHistory', { query })
  if (!(file instanceof Blob)) throw new Error('Expected a file, got something else.')
  const day = new Date().toISOString().slice(0, 10)
  handOver(file, `history-${day}.${query.as === 'csv' ? 'csv' : 'jsonl'}`)
}
