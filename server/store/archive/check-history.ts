import type { Database } from '../database.ts'
import { readEntries } from '../history.ts'
import { checkChain } from '../history-chain.ts'
import type { ChainHead } from './manifest.ts'

/**
 * Holds the whole history against its chain, and its end against what it is known to be.
 *
 * @param known head of the chain as it was noted down; null where none was
 * @throws Error naming the first entry that is not as it was written
 */
export async function checkHistory(database: Database, known: ChainHead | null): Promise<void> {
  const { head, fault } = await checkChain(readEntries(database.query))
  if (fault) throw new Error(`The history is broken at entry ${fault.seq}: ${fault.what}.`)
  if (known === null) return
  if (head?.seq !== known.seq || head?.hash !== known.hash) {
    throw new Error(
      `The history ends at entry ${head?.seq ?? 0}, which is not the end that was noted down (${known.seq}).`,
    )
  }
}
