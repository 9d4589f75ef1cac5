import type { SavedProposal } from '#contract/proposals.ts'
import { useProposalChanges } from '../api/proposals.ts'
import { RecordEdit } from '../record/record-edit.tsx'
import { NameAndNote } from './name-and-note.tsx'
import { PROPOSAL_HEAD } from './proposal-draft.ts'

interface Props {
  readonly saved: SavedProposal
  readonly onDone: () => void
}

/** Changes the name and the note of a kept proposal. */
export function ProposalEdit({ saved, onDone }: Props) {
  const changes = useProposalChanges(saved.feederId)
  return (
    <RecordEdit
      kind={PROPOSAL_HEAD}
      record={saved}
      changes={changes}
      className="planner-card stack"
      onDone={onDone}
    >
      {({ name, note }, onType) => <NameAndNote name={name} note={note} onType={onType} />}
    </RecordEdit>
  )
}
