import type { ProtectionRecord } from '#contract/protections.ts'
import { ITEM_CONDITIONS } from '#domain/feeder/birds.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { ChoiceField } from './choice-field.tsx'
import { type InspectDraft, inspectDrafts, inspectedItem, newInspection } from './inspect-draft.ts'
import { CONDITION_WORDS } from './item-fields.tsx'
import { TextField } from './text-field.tsx'

interface Props {
  readonly item: ProtectionRecord
  readonly onDone: () => void
}

/**
 * What a look at an installed item found. Anything but sound is a failure at once: the item no
 * longer closes a pair, until it is mended and recorded so.
 */
export function InspectForm({ item, onDone }: Props) {
  const feederId = useFeeder().feeder.header.id
  const { change } = useProtectionChanges(feederId)
  const key = `${feederId}~${item.id}`
  const draft = inspectDrafts.use(key) ?? newInspection(item, localToday())
  const keep = (typed: Partial<InspectDraft>) => inspectDrafts.keep(key, { ...draft, ...typed })
  const letGo = () => {
    inspectDrafts.keep(key, null)
    onDone()
  }
  const hasDate = draft.inspectedOn !== ''
  const save = () => {
    if (!hasDate) return
    const body = { ...inspectedItem(item, draft), version: item.version }
    change.mutate({ id: item.id, body }, { onSuccess: letGo })
  }
  return (
    <form
      className="stack item-form"
      aria-label={`Inspect ${item.kind}, ${item.what}`}
      onSubmit={(event) => {
        event.preventDefault()
        save()
      }}
    >
      <h4>Inspect: {item.what}</h4>
      <div className="item-form-pair">
        <ChoiceField
          label="Condition"
          options={ITEM_CONDITIONS}
          value={draft.condition}
          words={CONDITION_WORDS}
          onChoose={(condition) => keep({ condition })}
        />
        <TextField
          label="Inspected on"
          type="date"
          value={draft.inspectedOn}
          fault={hasDate ? null : 'Give the date of the inspection, as 2026-11-25.'}
          onType={(inspectedOn) => keep({ inspectedOn })}
        />
      </div>
      {draft.condition !== 'sound' && (
        <p className="small">
          It will count as failed from that day: what it closed stands open again.
        </p>
      )}
      <TextField label="Note" isLong value={draft.note} onType={(note) => keep({ note })} />
      {change.error && (
        <ErrorNote title="Not saved; what you typed is still here" error={change.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={change.isPending || !hasDate}>
          {change.isPending ? 'Saving…' : 'Save the inspection'}
        </Button>
        <Button onClick={letGo}>Give up</Button>
      </div>
    </form>
  )
}
