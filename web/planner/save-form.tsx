import type { FormEvent } from 'react'
import { useMay } from '../api/account.ts'
import { useProposalChanges } from '../api/proposals.ts'
import { useFeeder } from '../state/feeder.tsx'
import { listed } from '../state/format.ts'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { viewOfHandOver } from './hand-over-view.ts'
import { NameAndNote } from './name-and-note.tsx'
import type { OpenProposal } from './open-proposal.ts'
import { useSaveDraft } from './save-draft.ts'
import { useJudgedProposal } from './use-judged-proposal.ts'
import { useTrialBanks } from './use-trial-banks.ts'

/** Keeps the proposal, as its banks stand now, under a name. */
export function SaveForm({ open }: { readonly open: OpenProposal }) {
  const { feeder } = useFeeder()
  const { banks, isMoved } = useTrialBanks()
  const judged = useJudgedProposal(open)
  const { save } = useProposalChanges(feeder.header.id)
  const { study, choice, proposal } = useSelection()
  const { isOpen, isForCrew, name, note, change, clear } = useSaveDraft(
    `${proposal ?? study} ${choice}`,
  )
  const suggested = `Bank at ${listed(banks.map(({ pole }) => pole))}`
  const given = name ?? suggested
  const mayDraft = useMay('draft or change a job')
  const mayKeep = useMay('keep or change a proposal')
  if (open.saved !== null && !isMoved) return null
  if (!mayKeep) {
    return <p className="soft">Keeping proposals is the planner’s and the supervisor’s.</p>
  }
  const submit = (event: FormEvent) => {
    event.preventDefault()
    if (!judged || given.trim() === '') return
    save.mutate(
      { name: given, note, request: open.request, proposal: judged },
      {
        onSuccess: ({ id }) => {
          clear()
          select({ proposal: id, moved: null, view: isForCrew ? viewOfHandOver(0) : null })
        },
      },
    )
  }
  if (!isOpen) {
    return (
      <div className="row">
        <Button look="main" onClick={() => change({ isOpen: true, isForCrew: false })}>
          Keep as proposal
        </Button>
        {mayDraft && (
          <Button onClick={() => change({ isOpen: true, isForCrew: true })}>
            Keep and hand to crew
          </Button>
        )}
      </div>
    )
  }
  return (
    <form className="planner-card stack" onSubmit={submit}>
      <NameAndNote name={given} note={note} onType={change} />
      {save.error && <ErrorNote title="It was not kept." error={save.error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={!judged || save.isPending}>
          {save.isPending ? 'Keeping…' : isForCrew ? 'Keep, then hand over' : 'Keep'}
        </Button>
        <Button onClick={() => change({ isOpen: false })}>Not now</Button>
      </div>
    </form>
  )
}
