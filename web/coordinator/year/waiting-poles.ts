import type { SavedProposal } from '#contract/proposals.ts'

/** Poles of kept proposals: they wait for a regulator job, which carries their measures. */
export function waitingPoles(proposals: readonly SavedProposal[]): string[] {
  const poles = proposals
    .filter(({ deletedAt }) => deletedAt === null)
    .flatMap(({ proposal }) => proposal.banks.map(({ pole }) => pole))
  return [...new Set(poles)]
}
