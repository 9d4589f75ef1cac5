import type { SavedProposal } from '#contract/proposals.ts'
import { useMay } from '../api/account.ts'
import { useProposalChanges } from '../api/proposals.ts'
import { Attachments } from '../record/attachments.tsx'
import { HistoryButton } from '../record/history-button.tsx'
import { Moment } from '../record/moment.tsx'
import { Who } from '../record/who.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { select, useSelection } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote } from '../ui/state-note.tsx'
import { proposalDrafts } from './proposal-draft.ts'
import { ProposalEdit } from './proposal-edit.tsx'

const EDITING = 'edit-proposal'

/** Note of a kept proposal, who kept it, and the steps that change what is written of it. */
export function KeptNote({ saved }: { readonly saved: SavedProposal }) {
  const { version } = useFeeder()
  const mayChange = useMay('keep or change a proposal')
  const isEditing = useSelection().view === EDITING
  const isBegun = proposalDrafts.use(saved.id) !== null
  if (isEditing && mayChange) {
    return <ProposalEdit saved={saved} onDone={() => select({ view: null })} />
  }
  return (
    <>
      {saved.note && <p className="planner-note">{saved.note}</p>}
      <p className="soft small">
        Kept by <Who {...saved.savedBy} />, <Moment at={saved.savedAt} />
      </p>
      {saved.deletedAt && <DeletedNote saved={saved} />}
      {saved.feederVersion !== version && (
        <EmptyNote
          what={`Kept on version ${saved.feederVersion} of the feeder; it is now version ${version}. The figures below are computed anew.`}
        />
      )}
      {mayChange && saved.deletedAt === null && (
        <div className="row">
          <Button onClick={() => select({ view: EDITING })}>
            {isBegun ? 'Go on editing name and note' : 'Edit name and note'}
          </Button>
        </div>
      )}
    </>
  )
}

/** Photos, reports and history of a kept proposal. */
export function KeptRecord({ saved }: { readonly saved: SavedProposal }) {
  const { id, feederId, name } = saved
  return (
    <>
      <Attachments
        holder={{ feederId, attachedTo: 'proposal', attachedToId: id }}
        of={`the proposal ${name}`}
      />
      <HistoryButton
        thing={{ subject: 'proposal', subjectId: id, feederId }}
        name={`the proposal ${name}`}
      />
    </>
  )
}

function DeletedNote({ saved }: { readonly saved: SavedProposal }) {
  const mayRestore = useMay('delete or restore a proposal')
  const { restore } = useProposalChanges(saved.feederId)
  return (
    <EmptyNote what="This proposal is deleted.">
      {mayRestore && <Button onClick={() => restore.mutate(saved)}>Restore it</Button>}
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
    </EmptyNote>
  )
}
