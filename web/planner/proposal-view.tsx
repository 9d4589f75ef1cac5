import { useProposal } from '../api/proposals.ts'
import { counted } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { showSide, useTrial } from '../state/trial.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { BankCard } from './bank-card.tsx'
import { BeforeAfter } from './before-after.tsx'
import { ExcludedList } from './excluded-list.tsx'
import { KeptNote, KeptRecord } from './kept-record.tsx'
import { type OpenProposal, useOpenProposal } from './open-proposal.ts'
import { ProposalJobs } from './proposal-jobs.tsx'
import { ProposalMoney } from './proposal-money.tsx'
import { SaveForm } from './save-form.tsx'
import { useJudgedProposal } from './use-judged-proposal.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/** A chosen proposal: what it does, why, and where its banks stand. */
export function ProposalView() {
  const open = useOpenProposal()
  const { proposal, study } = useSelection()
  const saved = useProposal(proposal)
  const leave = () => select({ proposal: null, choice: null, moved: null, view: null })
  return (
    <section className="stack" aria-label="Proposal">
      <div className="planner-head">
        <h2>{open?.saved?.name ?? (open ? `Proposal ${open.proposal.rank}` : 'Proposal')}</h2>
        <Button look="plain" onClick={leave}>
          {study === null ? 'Back to the feeder' : 'Back to the list'}
        </Button>
      </div>
      {saved.error && <ErrorNote title="The proposal could not be opened." error={saved.error} />}
      {!open && !saved.error && <LoadingNote what="Opening the proposal…" />}
      {open && <Opened open={open} />}
    </section>
  )
}

function Opened({ open }: { readonly open: OpenProposal }) {
  const { saved, proposal, request, result } = open
  const { banks } = useTrialBanks()
  return (
    <>
      {saved && <KeptNote saved={saved} />}
      <SideChoice />
      <Why open={open} />
      {banks.map((bank, index) => (
        <BankCard key={index === 0 ? 'first' : 'second'} bank={bank} index={index} open={open} />
      ))}
      <ProposalMoney open={open} />
      <SaveForm open={open} />
      {saved && <ProposalJobs saved={saved} />}
      <BeforeAfter request={request} />
      {result && proposal.nearAlternatives.length > 0 && (
        <p>
          Nearly the same result at {counted(proposal.nearAlternatives.length, 'neighbouring pole')}
          : {proposal.nearAlternatives.join(', ')}.
        </p>
      )}
      {result && <ExcludedList result={result} />}
      {saved && <KeptRecord saved={saved} />}
      <p className="small soft">
        A computed suggestion, not an order: setting a bank is energized work. The utility’s safety
        rules, qualified workers, local codes, permits and the wildlife agencies decide.
      </p>
    </>
  )
}

function SideChoice() {
  const { shown } = useTrial()
  return (
    <fieldset className="planner-sides">
      <legend className="visually-hidden">Map and profile show the line</legend>
      <Button isPressed={shown === 'before'} onClick={() => showSide('before')}>
        Before
      </Button>
      <Button isPressed={shown === 'after'} onClick={() => showSide('after')}>
        After
      </Button>
      <span className="soft">on map and profile</span>
    </fieldset>
  )
}

/** Reason and cautions, also of a place that a person chose. */
function Why({ open }: { readonly open: OpenProposal }) {
  const { error, isDragged, isMoved, judged } = useTrialBanks()
  const proposal = useJudgedProposal(open)
  const isOne = open.proposal.banks.length === 1
  const chosen = isOne ? 'What this pole gives' : 'What these poles give'
  return (
    <div>
      <h3>{isMoved ? chosen : isOne ? 'Why this pole' : 'Why these poles'}</h3>
      {error && <ErrorNote title="The place could not be judged." error={error} />}
      {judged?.status === 'not judged' && <p className="planner-flag">{judged.what}</p>}
      {isMoved && isDragged && (
        <p className="soft">
          The volts follow with the present settings; let go, and the place is judged with its own.
        </p>
      )}
      {!proposal && !isDragged && !judged && !error && <LoadingNote what="Judging the place…" />}
      {proposal && <p>{judged?.status === 'judged' ? judged.proposal.reason : proposal.reason}</p>}
      {proposal && proposal.flags.length > 0 && (
        <ul className="planner-flags">
          {proposal.flags.map((flag) => (
            <li key={flag} className="planner-flag">
              <span aria-hidden="true">⚑ </span>
              {flag}
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
