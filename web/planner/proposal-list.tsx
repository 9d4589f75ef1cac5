import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { Effect, Proposal, ProposedBank, SiteResult } from '#domain/siting/site-result.ts'
import { useFeeder } from '../state/feeder.tsx'
import { counted, distance, inWords, listed, usd } from '../state/format.ts'
import { hoverPole } from '../state/hover.ts'
import { select, useSelection } from '../state/selection.ts'
import { previewBanks } from '../state/trial.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote } from '../ui/state-note.tsx'
import { regulatorOfBank } from './trial-banks.ts'
import { worstOf } from './worst-of.ts'

interface Props {
  readonly result: SiteResult
  readonly request: SiteRequest
}

/** Proposals in their order; pointing at one shows it on map and profile. */
export function ProposalList({ result, request }: Props) {
  const { proposals, proof, notes, before, bypassed = [] } = result
  return (
    <>
      <p>
        {proof} Now: {outsideWords(before)}.
      </p>
      {bypassed.map(({ id, pole, words }) => (
        <p key={id} className="planner-flag">
          <span aria-hidden="true">⚑ </span>
          {words}{' '}
          <Button look="plain" className="planner-inline" onClick={() => select({ pole })}>
            Show pole {pole}
          </Button>
        </p>
      ))}
      {proposals.length === 0 ? (
        <EmptyNote what="No pole may carry a bank under these choices. Loosen them, or read below what ruled each pole out." />
      ) : (
        <List label={`${proposals.length} proposals, best first`}>
          {proposals.map((proposal) => (
            <ProposalRow key={proposal.rank} proposal={proposal} request={request} />
          ))}
        </List>
      )}
      {notes.map((note) => (
        <p key={note} className="small soft">
          {note}
        </p>
      ))}
    </>
  )
}

function ProposalRow({
  proposal,
  request,
}: {
  readonly proposal: Proposal
  readonly request: SiteRequest
}) {
  const { feeder } = useFeeder()
  const { units } = useSelection()
  const { banks, after, rank, flags } = proposal
  const worst = worstOf(after, feeder.header.limits, request)
  const [first] = banks
  const preview = (isOn: boolean) => {
    previewBanks(isOn ? banks.map(regulatorOfBank) : null)
    hoverPole(isOn && first ? first.pole : null)
  }
  return (
    <ListRow
      onPreview={preview}
      onChoose={() => {
        preview(false)
        select({ choice: String(rank), moved: null })
      }}
    >
      <span className="planner-proposal-head">
        <span className="planner-rank">{rank}</span>
        <strong>Pole {listed(banks.map(({ pole }) => pole))}</strong>
        <span className="soft">
          {listed(banks.map(({ distanceM }) => inWords(distance(distanceM, units))))} out
        </span>
      </span>
      <span>
        {listed(banks.map(sizeAndSettings))}
        {'; '}
        {outsideWords(after)}; worst {worst.volts120.toFixed(1)} V
      </span>
      <span className="soft">
        {usd(proposal.costUsd)} installed;{' '}
        {proposal.lossSavedUsdPerYear >= 0
          ? `saves ${usd(proposal.lossSavedUsdPerYear)} of losses a year`
          : `${usd(-proposal.lossSavedUsdPerYear)} more losses a year`}
      </span>
      {flags.length > 0 && (
        <span className="planner-flag">
          <span aria-hidden="true">⚑ </span>
          {flags[0]}
          {flags.length > 1 && ` And ${counted(flags.length - 1, 'more caution')}.`}
        </span>
      )}
    </ListRow>
  )
}

/** "3 × 76.2 kVA at 122 V with R 3.5 V, X 2 V". */
function sizeAndSettings({ bandCentreV, phases, ratingKva, rV = 0, xV = 0 }: ProposedBank): string {
  const compensation = rV === 0 && xV === 0 ? '' : ` with R ${rV} V, X ${xV} V`
  return `${phases.length} × ${ratingKva} kVA at ${bandCentreV} V${compensation}`
}

/** Customers outside over all cases: the most in any one of them. */
function outsideWords({ cases }: Effect): string {
  const most = Math.max(0, ...Object.values(cases).map((effect) => effect.customersOutside))
  return most === 0 ? 'nobody outside limits' : `${counted(most, 'customer')} outside limits`
}
