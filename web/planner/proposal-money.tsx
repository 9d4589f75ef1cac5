import { thousands, usd } from '../state/format.ts'
import { showWorking } from '../state/working.ts'
import { Figure } from '../ui/figure.tsx'
import { costWorking, savingWorking } from './figure-workings.ts'
import type { OpenProposal } from './open-proposal.ts'
import { useJudgedProposal } from './use-judged-proposal.ts'

/** Cost and losses; each figure opens its working. */
export function ProposalMoney({ open }: { readonly open: OpenProposal }) {
  const proposal = useJudgedProposal(open)
  if (!proposal) return <p className="soft">Computing cost and losses…</p>
  const { costUsd, lossSavedUsdPerYear, energyLossKwhPerYear } = proposal
  return (
    <p>
      <Figure
        value={usd(costUsd)}
        unit="installed"
        label="Cost"
        onWorking={() => showWorking(costWorking(proposal, open.request))}
      />
      ;{' '}
      <Figure
        value={usd(Math.abs(lossSavedUsdPerYear))}
        unit={lossSavedUsdPerYear >= 0 ? 'of losses saved a year' : 'more losses a year'}
        label="Losses"
        onWorking={() => showWorking(savingWorking(proposal, open.request))}
      />
      ; {thousands(energyLossKwhPerYear)} kWh lost a year.
    </p>
  )
}
