import { useState } from 'react'
import type { SavedProposal } from '#contract/proposals.ts'
import { useMay } from '../api/account.ts'
import { useProposalChanges, useProposals } from '../api/proposals.ts'
import { Moment } from '../record/moment.tsx'
import { Who } from '../record/who.tsx'
import { useFeeder } from '../state/feeder.tsx'
import { counted, listed } from '../state/format.ts'
import { select } from '../state/selection.ts'
import { Button } from '../ui/button.tsx'
import { List, ListRow } from '../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'

/** Proposals kept for this feeder; a deleted one stays in its place with the step that undoes it. */
export function SavedList() {
  const { feeder } = useFeeder()
  const feederId = feeder.header.id
  const { data, error, isPending, refetch } = useProposals(feederId)
  const [gone, setGone] = useState<readonly SavedProposal[]>([])
  const mayDelete = useMay('delete or restore a proposal')
  const { remove, restore } = useProposalChanges(feederId)
  const kept = data ?? []
  const rows = [...kept, ...gone.filter(({ id }) => kept.every((other) => other.id !== id))].sort(
    (a, b) => (a.savedAt < b.savedAt ? 1 : -1),
  )
  // With the version that the deletion came to, from which it can be brought back.
  const discard = (proposal: SavedProposal) =>
    remove.mutate(proposal, {
      onSuccess: (deleted) => setGone([...gone.filter(({ id }) => id !== deleted.id), deleted]),
    })
  const isGone = (id: string) => kept.every((other) => other.id !== id)
  return (
    <section className="stack" aria-label="Kept proposals">
      <h2>Kept proposals</h2>
      {isPending && <LoadingNote what="Reading the kept proposals…" />}
      {error && (
        <ErrorNote
          title="The kept proposals could not be read."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {(remove.error ?? restore.error) && (
        <ErrorNote title="Nothing was changed." error={remove.error ?? restore.error} />
      )}
      {data && rows.length === 0 && (
        <EmptyNote what="None yet. “Suggest a pole” finds some; keep the one you would build." />
      )}
      {rows.length > 0 && (
        <List label={counted(kept.length, 'kept proposal')}>
          {rows.map((proposal) =>
            isGone(proposal.id) ? (
              <GoneRow
                key={proposal.id}
                name={proposal.name}
                onUndo={() => restore.mutate(proposal)}
              />
            ) : (
              <KeptRow
                key={proposal.id}
                proposal={proposal}
                onDelete={mayDelete ? () => discard(proposal) : null}
              />
            ),
          )}
        </List>
      )}
    </section>
  )
}

interface KeptProps {
  readonly proposal: SavedProposal
  /** Null for whoever may not. */
  readonly onDelete: (() => void) | null
}

function KeptRow({ proposal: { id, name, savedAt, savedBy, proposal }, onDelete }: KeptProps) {
  const open = () => select({ proposal: id, study: null, choice: null, moved: null })
  return (
    <ListRow>
      <span className="planner-kept">
        <Button look="plain" className="planner-inline" onClick={open}>
          {name}
        </Button>
        {onDelete && (
          <Button look="plain" aria-label={`Delete ${name}`} onClick={onDelete}>
            Delete
          </Button>
        )}
      </span>
      <span className="soft">
        Pole {listed(proposal.banks.map(({ pole }) => pole))}; kept by <Who {...savedBy} />,{' '}
        <Moment at={savedAt} />
      </span>
    </ListRow>
  )
}

function GoneRow({ name, onUndo }: { readonly name: string; readonly onUndo: () => void }) {
  return (
    <ListRow>
      <span className="planner-kept">
        <span role="status">Deleted: {name}</span>
        <Button onClick={onUndo}>Undo</Button>
      </span>
    </ListRow>
  )
}
