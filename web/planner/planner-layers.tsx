import { useStudy } from '../api/studies.ts'
import { useSelection } from '../state/selection.ts'
import { BankMarkers } from './bank-markers.tsx'
import { CandidateLayers } from './candidate-layers.tsx'
import { ProposalMarks } from './proposal-marks.tsx'
import { useTrialSync } from './use-trial-sync.ts'

/** What the planner adds to the map: how each pole did, the proposals, and the banks on trial. */
export function PlannerLayers() {
  const { study, choice, proposal } = useSelection()
  const result = useStudy(study).data?.result ?? null
  const isChoosing = choice === null && proposal === null
  useTrialSync()
  return (
    <>
      {result && proposal === null && <CandidateLayers result={result} />}
      {result && isChoosing && <ProposalMarks result={result} />}
      <BankMarkers />
    </>
  )
}
