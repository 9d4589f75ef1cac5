import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { Thing } from '../../api/history.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import type { Fields } from '../../record/merge-fields.ts'
import type { RecordField } from '../../record/record-fields.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import type { Faults } from './find-body.ts'
import { type RecordDraft, recordDrafts } from './record-draft.ts'
import type { RecordSave } from './use-record-save.ts'

/** A record as the form began from it, or as it stands now. */
export interface FormRecord {
  readonly version: number
  readonly deletedAt: string | null
}

interface Props<Kept extends FormRecord> {
  readonly title: string
  /** "this find" */
  readonly what: string
  /** Names the draft. */
  readonly draftKey: string
  /** What the fields begin with where there is no draft. */
  readonly begin: () => Fields
  /** As it stands in the list; null to add one. */
  readonly record: Kept | null
  readonly thing: Thing | null
  readonly fields: readonly RecordField[]
  readonly fieldsOf: (record: Kept) => Fields
  readonly saving: RecordSave<Kept>
  readonly onRestore: (version: number, goOn: (restored: Kept) => void) => void
  readonly onDone: () => void
  readonly children: (typed: Fields, faults: Faults, onType: (change: Fields) => void) => ReactNode
}

/** Form of a find or a nest. What is typed is kept until it is saved or given up. */
export function RecordForm<Kept extends FormRecord>(props: Props<Kept>) {
  const { title, what, draftKey, begin, record, thing, fields, fieldsOf, saving, onDone } = props
  // As it was when the form was opened: a change by someone else does not reach into the fields.
  const [opened] = useState<RecordDraft>(() => {
    const base = record && fieldsOf(record)
    return { fields: base ?? begin(), version: record?.version ?? null, base }
  })
  const draft = recordDrafts.use(draftKey) ?? opened
  const keep = (next: RecordDraft) => recordDrafts.keep(draftKey, next)
  const letGo = () => {
    recordDrafts.keep(draftKey, null)
    onDone()
  }
  const standing = newestOf(record, saving.newer)
  return (
    <form
      className="stack item-form"
      aria-label={title}
      noValidate
      ref={useFocus(saving.faults)}
      onSubmit={(event) => {
        event.preventDefault()
        saving.save(draft)
      }}
    >
      <h3>{title}</h3>
      {standing && thing && draft.version !== null && (
        <Meanwhile
          thing={thing}
          what={what}
          fields={fields}
          typedOn={draft.version}
          base={draft.base}
          mine={draft.fields}
          standing={{
            version: standing.version,
            fields: fieldsOf(standing),
            isDeleted: standing.deletedAt !== null,
          }}
          isRefused={saving.newer !== null}
          isSaving={saving.isSaving}
          onSave={(chosen, version) => {
            const merged = { fields: chosen, version, base: fieldsOf(standing) }
            keep(merged)
            saving.save(merged)
          }}
          onDropMine={letGo}
          onRestore={(version) =>
            props.onRestore(version, (restored) => keep({ ...draft, version: restored.version }))
          }
        />
      )}
      {props.children(draft.fields, saving.faults, (change) =>
        keep({ ...draft, fields: { ...draft.fields, ...change } }),
      )}
      <FaultsNote faults={saving.faults} fields={fields} />
      {saving.error && (
        <ErrorNote title="Not saved; what you typed is still here" error={saving.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={saving.isSaving}>
          {saving.isSaving ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>{record ? 'Give up the changes' : 'Give up'}</Button>
      </div>
    </form>
  )
}

function newestOf<Kept extends FormRecord>(listed: Kept | null, refusedBy: Kept | null) {
  if (!listed || !refusedBy) return refusedBy ?? listed
  return refusedBy.version > listed.version ? refusedBy : listed
}

/** Begins in the first field; where one is wrong, opens its fold and goes there. */
function useFocus(faults: Faults) {
  const ref = useRef<HTMLFormElement>(null)
  useEffect(() => {
    ref.current?.scrollIntoView({ block: 'start' })
    ref.current?.querySelector<HTMLElement>('input, select, textarea')?.focus()
  }, [])
  useEffect(() => {
    if (Object.keys(faults).length === 0) return
    const control = ref.current?.querySelector<HTMLElement>('[aria-invalid="true"]')
    const fold = control?.closest('details')
    if (fold) fold.open = true
    control?.focus()
  }, [faults])
  return ref
}

function FaultsNote({ faults, fields }: Pick<Props<FormRecord>, 'fields'> & { faults: Faults }) {
  const wrong = fields.filter(({ key }) => faults[key] !== undefined)
  if (wrong.length === 0) return null
  return (
    <p className="field-fault" role="alert">
      Not saved yet. Look at: {wrong.map(({ label }) => label).join(', ')}.
    </p>
  )
}
