import { useMemo } from 'react'
import type { Proposal } from '#domain/siting/site-result.ts'
import { movedProposal } from './moved-proposal.ts'
import type { OpenProposal } from './open-proposal.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/**
 * The proposal as its banks stand: as it came where none was moved, else as it was judged there.
 * Null as long as that is not there.
 */
export function useJudgedProposal({ proposal }: OpenProposal): Proposal | null {
  const { isMoved, judged } = useTrialBanks()
  return useMemo(() => {
    if (!isMoved) return proposal
    return judged?.status === 'judged' ? movedProposal(proposal, judged.proposal) : null
  }, [proposal, isMoved, judged])
}
