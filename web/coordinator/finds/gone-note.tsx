import type { UseMutationResult } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'

interface Deleted {
  readonly id: string
  readonly version: number
}

/** Records deleted here just now, so that each can be brought back in its place. */
export function useGone<Kept extends Deleted>() {
  const [list, setList] = useState<readonly Kept[]>([])
  return {
    list,
    add: (deleted: Kept) => setList((before) => [deleted, ...before]),
    forget: (deleted: Kept) => setList((before) => before.filter(({ id }) => id !== deleted.id)),
  }
}

interface Props<Kept extends Deleted> {
  /** "nest, golden eagle": as it stands in a sentence. */
  readonly what: string
  readonly deleted: Kept
  readonly restore: UseMutationResult<Kept, Error, Deleted>
  readonly onDone: () => void
}

/** What was deleted, with the step that undoes it. */
export function GoneNote<Kept extends Deleted>({ what, deleted, restore, onDone }: Props<Kept>) {
  const bringBack = () => restore.mutate(deleted, { onSuccess: onDone })
  return (
    <div className="state-note" role="status">
      <span>Deleted from the record: {what}. Its history is kept.</span>
      {restore.error && <ErrorNote title="Not brought back" error={restore.error} />}
      <Button onClick={bringBack}>Undo the deletion</Button>
    </div>
  )
}
