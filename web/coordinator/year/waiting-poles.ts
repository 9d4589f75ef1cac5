import type { JobSummary } from '#contract/jobs.ts'
import type { SavedProposal } from '#contract/proposals.ts'
import { isOpen } from '../../jobs/job-words.ts'

/**
 * Poles of open jobs, and of kept proposals that will become one: they wait for that job, which
 * carries their measures. A proposal whose job is closed waits for nothing more.
 */
export function waitingPoles(
  proposals: readonly SavedProposal[],
  jobs: readonly JobSummary[],
): string[] {
  const ofJobs = jobs.filter(({ state }) => isOpen(state)).flatMap(({ poles }) => poles)
  const ofProposals = proposals
    .filter(({ deletedAt }) => deletedAt === null)
    .flatMap(({ id, proposal }) =>
      proposal.banks.map(({ pole }) => pole).filter((pole) => !isBuilt(id, pole, jobs)),
    )
  return [...new Set([...ofJobs, ...ofProposals])]
}

function isBuilt(proposalId: string, pole: string, jobs: readonly JobSummary[]): boolean {
  return jobs.some(
    ({ origin, state, poles }) =>
      origin.kind === 'proposal' &&
      origin.proposalId === proposalId &&
      !isOpen(state) &&
      poles.includes(pole),
  )
}
