import { useState } from 'react'
import type { ProtectionRecord } from '#contract/protections.ts'
import { PROTECTION_KINDS, PROTECTION_STATES } from '#domain/feeder/birds.ts'
import { useProtectionChanges } from '../api/protections.ts'
import { Meanwhile } from '../record/meanwhile.tsx'
import { PROTECTION_FIELDS } from '../record/record-fields.ts'
import { useFeeder } from '../state/feeder.tsx'
import { Button } from '../ui/button.tsx'
import { Field } from '../ui/field.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import {
  draftOfChosen,
  draftOfItem,
  fieldsOfDraft,
  fieldsOfItem,
  type ItemDraft,
  newDraft,
} from './item-draft.ts'
import { itemDrafts } from './item-drafts.ts'
import { STATE_WORDS } from './state-mark.tsx'
import { useItemSave } from './use-item-save.ts'

interface Props {
  readonly pole: string
  /** Null to add one. */
  readonly item: ProtectionRecord | null
  readonly onDone: () => void
}

/** Adds or edits a guard, cover or perch. What is typed is kept until it is saved or given up. */
export function ItemForm({ pole, item, onDone }: Props) {
  const feederId = useFeeder().feeder.header.id
  const key = `${feederId}~${item?.id ?? `new~${pole}`}`
  // As it was when the form was opened: a change by someone else does not reach into the fields.
  const [opened] = useState(() => (item ? draftOfItem(item) : newDraft(localToday())))
  const draft = itemDrafts.use(key) ?? opened
  const letGo = () => {
    itemDrafts.keep(key, null)
    onDone()
  }
  const saving = useItemSave(feederId, pole, item?.id ?? null, letGo)
  const { restore } = useProtectionChanges(feederId)
  const keep = (next: ItemDraft) => itemDrafts.keep(key, next)
  const title = item ? `Edit ${item.kind}: ${item.what}` : `New item on pole ${pole}`
  const standing = newestOf(item, saving.newer)
  return (
    <form
      className="stack item-form"
      aria-label={title}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        saving.save(draft)
      }}
    >
      <h4>{title}</h4>
      {standing && draft.version !== null && (
        <Meanwhile
          thing={{ subject: 'protection', subjectId: standing.id, feederId }}
          what="this item"
          fields={PROTECTION_FIELDS.filter(({ key: field }) => field !== 'pole')}
          typedOn={draft.version}
          base={draft.base}
          mine={fieldsOfDraft(draft)}
          standing={{
            version: standing.version,
            fields: fieldsOfItem(standing),
            isDeleted: standing.deletedAt !== null,
          }}
          isRefused={saving.newer !== null}
          isSaving={saving.isSaving}
          onSave={(chosen) => {
            const merged = draftOfChosen(chosen, standing)
            keep(merged)
            saving.save(merged)
          }}
          onDropMine={letGo}
          onRestore={(version) =>
            restore.mutate(
              { id: standing.id, version },
              { onSuccess: (restored) => keep({ ...draft, version: restored.version }) },
            )
          }
        />
      )}
      <DraftFields
        draft={draft}
        faults={saving.faults}
        onType={(change) => keep({ ...draft, ...change })}
      />
      {restore.error && <ErrorNote title="Not restored" error={restore.error} />}
      {saving.error && (
        <ErrorNote title="Not saved; what you typed is still here" error={saving.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={saving.isSaving}>
          {saving.isSaving ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>{item ? 'Give up the changes' : 'Give up'}</Button>
      </div>
    </form>
  )
}

function newestOf(
  listed: ProtectionRecord | null,
  refusedBy: ProtectionRecord | null,
): ProtectionRecord | null {
  if (!listed || !refusedBy) return refusedBy ?? listed
  return refusedBy.version > listed.version ? refusedBy : listed
}

interface FieldsProps {
  readonly draft: ItemDraft
  readonly faults: Partial<Record<'what' | 'on', string>>
  readonly onType: (change: Partial<ItemDraft>) => void
}

function DraftFields({ draft, faults, onType }: FieldsProps) {
  return (
    <>
      <div className="item-form-pair">
        <Choice
          label="Kind"
          options={PROTECTION_KINDS}
          value={draft.kind}
          onChoose={(kind) => onType({ kind })}
        />
        <Choice
          label="State"
          options={PROTECTION_STATES}
          value={draft.state}
          words={STATE_WORDS}
          onChoose={(state) => onType({ state })}
        />
      </div>
      <Field
        label="What it covers or where it sits"
        hint="As “bushing cover, A phase”."
        fault={faults.what}
      >
        {(control) => (
          <input
            className="input"
            value={draft.what}
            onChange={(event) => onType({ what: event.target.value })}
            {...control}
          />
        )}
      </Field>
      <Field label="Date of the state" fault={faults.on}>
        {(control) => (
          <input
            className="input"
            type="date"
            value={draft.on}
            onChange={(event) => onType({ on: event.target.value })}
            {...control}
          />
        )}
      </Field>
      <Field label="Note">
        {(control) => (
          <textarea
            className="input"
            rows={2}
            value={draft.note}
            onChange={(event) => onType({ note: event.target.value })}
            {...control}
          />
        )}
      </Field>
    </>
  )
}

interface ChoiceProps<Value extends string> {
  readonly label: string
  readonly options: readonly Value[]
  readonly value: Value
  readonly words?: Readonly<Record<Value, string>>
  readonly onChoose: (value: Value) => void
}

function Choice<Value extends string>(props: ChoiceProps<Value>) {
  const { label, options, value, words, onChoose } = props
  return (
    <Field label={label}>
      {(control) => (
        <select
          className="input"
          value={value}
          onChange={(event) => {
            const chosen = options.find((option) => option === event.target.value)
            if (chosen) onChoose(chosen)
          }}
          {...control}
        >
          {options.map((option) => (
            <option key={option} value={option}>
              {words?.[option] ?? option}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

/** Calendar date where the person sits. */
function localToday(): string {
  const now = new Date()
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()]
  return parts.map((part) => String(part).padStart(2, '0')).join('-')
}
