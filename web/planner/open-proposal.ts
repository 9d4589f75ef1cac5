import type { SavedProposal } from '#contract/proposals.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { Proposal, SiteResult } from '#domain/siting/site-result.ts'
import { useProposal } from '../api/proposals.ts'
import { useStudy } from '../api/studies.ts'
import { useSelection } from '../state/selection.ts'

/** The proposal that is chosen: one of a study, or one that was kept. */
export interface OpenProposal {
  readonly proposal: Proposal
  readonly request: SiteRequest
  readonly saved: SavedProposal | null
  /** Of the study it comes from, where that is open too. */
  readonly result: SiteResult | null
}

export function useOpenProposal(): OpenProposal | null {
  const { proposal: savedId, study: studyId, choice } = useSelection()
  const saved = useProposal(savedId).data
  const study = useStudy(studyId).data
  if (savedId !== null) {
    return saved ? { proposal: saved.proposal, request: saved.request, saved, result: null } : null
  }
  const proposal = study?.result?.proposals.find(({ rank }) => String(rank) === choice)
  if (!proposal || !study?.result) return null
  return { proposal, request: study.request, saved: null, result: study.result }
}
