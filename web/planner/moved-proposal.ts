import type { Proposal } from '#domain/siting/site-result.ts'
import { listed } from '../state/format.ts'

/** What was judged where a person put the banks, and from where they were moved. */
export function movedProposal(original: Proposal, judged: Proposal): Proposal {
  const [from, to] = [original, judged].map(({ banks }) => listed(banks.map(({ pole }) => pole)))
  const moved = `Moved by hand from proposal ${original.rank} at pole ${from} to pole ${to}; every figure was computed anew there.`
  return { ...judged, rank: original.rank, reason: `${moved} ${judged.reason}` }
}
