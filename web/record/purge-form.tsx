import { type FormEvent, useState } from 'react'
import { type DeletedItem, PurgeBody } from '#contract/history.ts'
import { useDeletedChanges } from '../api/history.ts'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'

export type PurgeableItem = DeletedItem & Pick<PurgeBody, 'subject'>

/** Feeders, studies and people are never removed for good. */
export function isPurgeable(deleted: DeletedItem): deleted is PurgeableItem {
  return PurgeBody.shape.subject.safeParse(deleted.subject).success
}

interface Props {
  readonly deleted: PurgeableItem
  readonly onGiveUp: () => void
}

/** Asks why before something is removed for good. */
export function PurgeForm({ deleted, onGiveUp }: Props) {
  const [reason, setReason] = useState('')
  const [isAsked, setIsAsked] = useState(false)
  const { purge } = useDeletedChanges(deleted.feederId)
  const isTooShort = reason.trim().length < 3
  const submit = (event: FormEvent) => {
    event.preventDefault()
    setIsAsked(true)
    if (isTooShort) return
    const { subject, feederId, subjectId, version } = deleted
    purge.mutate({ subject, feederId, subjectId, version, reason: reason.trim() })
  }
  return (
    <form
      className="stack record-panel"
      aria-label={`Remove ${deleted.what} for good`}
      onSubmit={submit}
    >
      <p>
        <strong>This cannot be undone.</strong> {deleted.what} can then not be restored by anybody,
        not even from here. The history keeps that it was there, that you removed it, and why.
      </p>
      <Field
        label="Why it is removed for good"
        fault={isAsked && isTooShort ? 'Say why, in at least three letters.' : null}
      >
        {(control) => (
          <input
            {...control}
            className="input"
            maxLength={400}
            value={reason}
            onChange={({ target }) => setReason(target.value)}
          />
        )}
      </Field>
      {purge.error && <ErrorNote title="Not removed." error={purge.error} />}
      <div className="row">
        <Button type="submit" look="danger" disabled={purge.isPending}>
          {purge.isPending ? 'Removing…' : 'Remove for good'}
        </Button>
        <Button onClick={onGiveUp}>Leave it deleted</Button>
      </div>
    </form>
  )
}
