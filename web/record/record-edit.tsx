import { type ReactNode, useState } from 'react'
import type { z } from 'zod'
import type { Subject } from '#contract/history.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { Button } from '../ui/button.tsx'
import { ErrorNote } from '../ui/state-note.tsx'
import type { KeptDrafts } from './kept-drafts.ts'
import { Meanwhile } from './meanwhile.tsx'
import type { Fields } from './merge-fields.ts'
import type { RecordField } from './record-fields.ts'

/** What a draft holds beside what is typed. */
interface DraftBase {
  /** Version that the person started from; null for a thing that is not kept yet. */
  readonly version: number | null
  /** What that version held. */
  readonly base: Fields | null
}

interface Versioned {
  readonly version: number
  readonly deletedAt: string | null
}

/** How one kind of thing is edited; `Head` is what people may change of it. */
export interface EditKind<Head, Draft extends Head & DraftBase, Body> {
  readonly subject: Subject
  /** "this proposal": as it stands in a sentence. */
  readonly what: string
  readonly fields: readonly RecordField[]
  /** Drafts by the id of the thing. */
  readonly drafts: KeptDrafts<Draft>
  readonly draftSchema: z.ZodType<Draft>
  /** Of a thing as a refusal to save brings it. */
  readonly newerSchema: z.ZodType<Head & Versioned>
  readonly fieldsOf: (head: Head) => Fields
  /** Of the form. */
  readonly nameOf: (head: Head) => string
  /** What is sent; null while it cannot be saved. */
  readonly bodyOf: (draft: Draft) => Body | null
}

interface Writing<Input> {
  readonly mutate: (
    input: Input,
    then: {
      readonly onSuccess?: (saved: Versioned) => void
      readonly onError?: (error: Error) => void
    },
  ) => void
  readonly isPending: boolean
  readonly error: Error | null
}

interface Props<Head, Draft extends Head & DraftBase, Body> {
  readonly kind: EditKind<Head, Draft, Body>
  /** As the page has it now. */
  readonly record: Head & Versioned & { readonly id: string; readonly feederId: string }
  readonly changes: {
    readonly change: Writing<{ id: string; body: Body }>
    readonly restore: Writing<{ id: string; version: number }>
  }
  readonly className: string
  readonly onDone: () => void
  /** The fields of the form. */
  readonly children: (draft: Draft, onType: (part: Partial<Draft>) => void) => ReactNode
}

/**
 * Edits a thing of the record: what is typed is kept until it is saved, and where somebody else
 * saved meanwhile the person chooses field by field.
 */
export function RecordEdit<Head, Draft extends Head & DraftBase, Body>(
  props: Props<Head, Draft, Body>,
) {
  const { kind, record, changes, className, children } = props
  const { subject, what, fields, fieldsOf } = kind
  const { opened, draft, keep, save, letGo, newer, error } = useRecordEdit(props)
  const { change, restore } = changes
  const { id, feederId } = record
  const standing = newer && newer.version > record.version ? newer : record
  return (
    <form
      className={className}
      aria-label={kind.nameOf(opened)}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        save(draft)
      }}
    >
      <Meanwhile
        thing={{ subject, subjectId: id, feederId }}
        what={what}
        fields={fields}
        typedOn={draft.version ?? record.version}
        base={draft.base}
        mine={fieldsOf(draft)}
        standing={{
          version: standing.version,
          fields: fieldsOf(standing),
          isDeleted: standing.deletedAt !== null,
        }}
        isRefused={newer !== null}
        isSaving={change.isPending}
        onSave={(chosen) => {
          const merged = draftOf(kind, standing, chosen)
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
      {children(draft, (part) => keep({ ...draft, ...part }))}
      {restore.error && <ErrorNote title="Not restored." error={restore.error} />}
      {error && <ErrorNote title="Not saved; what you typed is still here." error={error} />}
      <div className="row">
        <Button type="submit" look="main" disabled={change.isPending}>
          {change.isPending ? 'Saving…' : 'Save'}
        </Button>
        <Button onClick={letGo}>Give up the changes</Button>
      </div>
    </form>
  )
}

function useRecordEdit<Head, Draft extends Head & DraftBase, Body>({
  kind,
  record,
  changes: { change },
  onDone,
}: Props<Head, Draft, Body>) {
  const { drafts, bodyOf, newerSchema } = kind
  const { id } = record
  // As it was when the form was opened: a change by someone else does not reach into the fields.
  const [opened] = useState(() => draftOf(kind, record, kind.fieldsOf(record)))
  const [newer, setNewer] = useState<(Head & Versioned) | null>(null)
  const letGo = () => {
    drafts.keep(id, null)
    onDone()
  }
  const newerOf = (error: Error | null) =>
    error instanceof ProblemError
      ? (newerSchema.safeParse(error.problem.current).data ?? null)
      : null
  const save = (draft: Draft) => {
    const body = bodyOf(draft)
    if (body === null) return
    change.mutate({ id, body }, { onSuccess: letGo, onError: (error) => setNewer(newerOf(error)) })
  }
  return {
    opened,
    draft: drafts.use(id) ?? opened,
    keep: (next: Draft) => drafts.keep(id, next),
    save,
    letGo,
    /** The thing as someone else left it meanwhile, where saving was refused because of it. */
    newer,
    /** Why it was not saved, where it is for another reason than a newer version. */
    error: newerOf(change.error) ? null : change.error,
  }
}

/** A draft that says these fields and follows on this version. */
function draftOf<Head, Draft extends Head & DraftBase, Body>(
  { draftSchema, fieldsOf }: EditKind<Head, Draft, Body>,
  on: Head & Versioned,
  fields: Fields,
): Draft {
  return draftSchema.parse({ ...fields, version: on.version, base: fieldsOf(on) })
}
