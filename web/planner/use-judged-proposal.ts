import { useMemo } from 'react'
import type { Proposal } from '#domain/siting/site-result.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useBefore, useSolutions } from '../state/solutions.ts'
import { useTrial } from '../state/trial.ts'
import { proposalOfMoved } from './moved-proposal.ts'
import type { OpenProposal } from './open-proposal.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/**
 * The proposal as its banks stand: as it came where none was moved, else with every figure from
 * the live solutions. Null as long as these are not there.
 */
export function useJudgedProposal({ proposal, request }: OpenProposal): Proposal | null {
  const model = useFeeder()
  const { banks, isMoved } = useTrialBanks()
  const before = useBefore().data
  const after = useSolutions(useTrial().banks)
  return useMemo(() => {
    if (!isMoved) return proposal
    if (!before || !after.data || after.isPlaceholderData) return null
    return proposalOfMoved({ model, request, original: proposal, banks, before, after: after.data })
  }, [model, request, proposal, banks, isMoved, before, after.data, after.isPlaceholderData])
}
