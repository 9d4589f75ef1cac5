import { useState } from 'react'
import type { SavedProposal } from '#contract/proposals.ts'
import { Meanwhile } from '../record/meanwhile.tsx'
import { PROPOSAL_FIELDS } from '../record/record-fields.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import { NameAndNote } from './name-and-note.tsx'
import {
  draftOfChosenProposal,
  draftOfProposal,
  fieldsOfProposal,
  type ProposalDraft,
  proposalDrafts,
} from './proposal-draft.ts'
import { useProposalSave } from './use-proposal-save.ts'

interface Props {
  readonly saved: SavedProposal
  readonly onDone: () => void
}

/** Changes the name and the note of a kept proposal; what is typed is kept until it is saved. */
export function ProposalEdit({ saved, onDone }: Props) {
  const { id, feederId } = saved
  const [opened] = useState(() => draftOfProposal(saved))
  const draft = proposalDrafts.use(id) ?? opened
  const keep = (next: ProposalDraft) => proposalDrafts.keep(id, next)
  const letGo = () => {
    proposalDrafts.keep(id, null)
    onDone()
  }
  const { save, restore, isSaving, error, newer } = useProposalSave(saved, letGo)
  const standing = newer && newer.version > saved.version ? newer : saved
  const isNameless = draft.name.trim() === ''
  return (
    <form
      className="planner-card stack"
      aria-label={`Name and note of ${opened.name}`}
      onSubmit={(event) => {
        event.preventDefault()
        if (!isNameless) save(draft)
      }}
    >
      <Meanwhile
        thing={{ subject: 'proposal', subjectId: id, feederId }}
        what="this proposal"
        fields={PROPOSAL_FIELDS}
        typedOn={draft.version}
        base={draft.base}
        mine={{ name: draft.name, note: draft.note }}
        standing={{
          version: standing.version,
          fields: fieldsOfProposal(standing),
          isDeleted: standing.deletedAt !== null,
        }}
        isRefused={newer !== null}
        isSaving={isSaving}
        onSave={(chosen) => {
          const merged = draftOfChosenProposal(chosen, standing)
          keep(merged)
          save(merged)
        }}
        onDropMine={letGo}
        onRestore={(version) =>
          restore.mutate(
            { id, version },
            { onSuccess: (restored) => keep({ ...draft, version: restored.version }) },
          )
        }
      />
      <NameAndNote
        name={draft.name}
        note={draft.note}
        onType={(change) => keep({ ...draft, ...change })}
      />
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      {error && <ErrorNote title="Not saved; what you typed is still here." error={error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={isSaving}>
          {isSaving ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>Give up the changes</Button>
      </div>
    </form>
  )
}
