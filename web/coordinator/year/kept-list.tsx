import { useState } from 'react'
import type { ProgrammeRecord } from '#contract/programmes.ts'
import { useMay } from '../../api/account.ts'
import { useProgrammeChanges, useProgrammes } from '../../api/programmes.ts'
import { Moment } from '../../record/moment.tsx'
import { Who } from '../../record/who.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { counted, usd } from '../../state/format.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { List, ListRow } from '../../ui/list.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../../ui/state-note.tsx'
import { viewOfProgramme } from './year-view.ts'

/** Programmes kept for this feeder; a deleted one stays in its place with the step that undoes it. */
export function KeptList() {
  const feederId = useFeeder().feeder.header.id
  const { data, error, isPending, refetch } = useProgrammes(feederId)
  const { remove, restore } = useProgrammeChanges(feederId)
  const [gone, setGone] = useState<readonly ProgrammeRecord[]>([])
  const mayDelete = useMay('delete or restore a programme')
  const kept = data ?? []
  const isGone = (id: string) => kept.every((other) => other.id !== id)
  const rows = [...kept, ...gone.filter(({ id }) => isGone(id))]
  // With the version that the deletion came to, from which it can be brought back.
  const discard = (programme: ProgrammeRecord) =>
    remove.mutate(programme, {
      onSuccess: (deleted) => setGone([...gone.filter(({ id }) => id !== deleted.id), deleted]),
    })
  return (
    <section className="stack" aria-label="Kept programmes">
      <h3>Kept programmes</h3>
      {isPending && <LoadingNote what="Reading the kept programmes…" />}
      {error && (
        <ErrorNote
          title="The kept programmes could not be read."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {(remove.error ?? restore.error) && (
        <ErrorNote title="Nothing was changed." error={remove.error ?? restore.error} />
      )}
      {data && rows.length === 0 && (
        <EmptyNote what="None yet. Choose a budget above and keep what comes of it." />
      )}
      {rows.length > 0 && (
        <List label={counted(kept.length, 'kept programme')}>
          {rows.map((programme) =>
            isGone(programme.id) ? (
              <GoneRow
                key={programme.id}
                name={programme.name}
                onUndo={() => restore.mutate(programme)}
              />
            ) : (
              <KeptRow
                key={programme.id}
                kept={programme}
                onDelete={mayDelete ? () => discard(programme) : null}
              />
            ),
          )}
        </List>
      )}
    </section>
  )
}

interface KeptProps {
  readonly kept: ProgrammeRecord
  /** Null for whoever may not. */
  readonly onDelete: (() => void) | null
}

function KeptRow({ kept, onDelete }: KeptProps) {
  const { id, name, state, programme, changedBy, changedAt } = kept
  return (
    <ListRow>
      <span className="bird-row-head">
        <Button look="plain" onClick={() => select({ view: viewOfProgramme(id) })}>
          {name}
        </Button>
        {onDelete && (
          <Button look="plain" aria-label={`Delete ${name}`} onClick={onDelete}>
            Delete
          </Button>
        )}
      </span>
      <span className="soft">
        <span className="first-capital">{state}</span>: {counted(programme.poles.length, 'pole')}{' '}
        for {usd(programme.costUsd)}; by <Who {...changedBy} />, <Moment at={changedAt} />
      </span>
    </ListRow>
  )
}

function GoneRow({ name, onUndo }: { readonly name: string; readonly onUndo: () => void }) {
  return (
    <ListRow>
      <span className="bird-row-head">
        <span role="status">Deleted: {name}</span>
        <Button onClick={onUndo}>Undo</Button>
      </span>
    </ListRow>
  )
}
