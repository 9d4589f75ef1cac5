import { createHash } from 'node:crypto'
import type { HistoryEntry } from '../services/ports.ts'
import type { ChainFault, ChainHead, ChainReport } from '../services/record-report.ts'
import { canonicalJson } from './canonical-json.ts'

export type { ChainHead, ChainReport } from '../services/record-report.ts'

/** `previousHash` of the first entry of all. */
export const NO_HASH = '0'.repeat(64)

/**
 * SHA-256 (FIPS 180-4) in hexadecimal digits over the canonical JSON text of the entry without its
 * `hash`. The entry holds the hash of the one before, so that each closes all before it.
 */
export function hashOfEntry(entry: Omit<HistoryEntry, 'hash'>): string {
  const { hash: _hash, ...hashed } = { hash: '', ...entry }
  return createHash('sha256').update(canonicalJson(hashed)).digest('hex')
}

/**
 * Goes through all entries in the order of `seq` and holds each against the one before. It finds
 * what was changed, swapped, put in or taken out; entries cut off at the end show only where a
 * head noted down earlier is given.
 */
export async function checkChain(
  entries: AsyncIterable<HistoryEntry>,
  knownHead?: string,
): Promise<ChainReport> {
  let count = 0
  let head: ChainHead | null = null
  let fault: ChainFault | null = null
  let knownHeadSeq: number | null = null
  for await (const entry of entries) {
    fault ??= faultOf(entry, head)
    head = { seq: entry.seq, hash: entry.hash }
    count++
    if (fault === null && entry.hash === knownHead) knownHeadSeq = entry.seq
  }
  return { entries: count, head, fault, knownHeadSeq }
}

function faultOf(entry: HistoryEntry, previous: ChainHead | null): ChainFault | null {
  const { seq } = entry
  const expected = (previous?.seq ?? 0) + 1
  if (seq > expected) return { seq: expected, what: missingWords(expected, seq - 1) }
  if (seq < expected) return { seq, what: 'the number stands twice or out of order' }
  if (entry.hash !== hashOfEntry(entry))
    return { seq, what: 'what it says is not what was written' }
  if (entry.previousHash === (previous?.hash ?? NO_HASH)) return null
  return { seq, what: 'it does not follow from the entry before it' }
}

function missingWords(first: number, last: number): string {
  return first === last ? 'it is missing' : `the entries up to ${last} are missing`
}
