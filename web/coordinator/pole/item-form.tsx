import { useState } from 'react'
import type { ProtectionRecord } from '#contract/protections.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { useProtectionChanges } from '../../api/protections.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { PROTECTION_FIELDS } from '../../record/record-fields.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import {
  draftOfChosen,
  draftOfItem,
  fieldsOfDraft,
  fieldsOfItem,
  type ItemDraft,
  newDraft,
} from './item-draft.ts'
import { itemDrafts } from './item-drafts.ts'
import { ItemFields } from './item-fields.tsx'
import { useItemSave } from './use-item-save.ts'

interface Props {
  readonly pole: string
  /** Null to add one. */
  readonly item: ProtectionRecord | null
  /** Of the pole as framed. */
  readonly parts: readonly Part[]
  readonly onDone: () => void
}

/** Adds or edits a guard, cover or perch. What is typed is kept until it is saved or given up. */
export function ItemForm({ pole, item, parts, onDone }: Props) {
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
      <ItemFields
        draft={draft}
        faults={saving.faults}
        parts={parts}
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
