import { useState } from 'react'
import type { HistoryEntry } from '#contract/history.ts'
import { useMay } from '../api/account.ts'
import { type Thing, useHistory } from '../api/history.ts'
import { Button } from '../ui/button.tsx'
import { EmptyNote, ErrorNote, LoadingNote } from '../ui/state-note.tsx'
import { changeInWords, type FieldChange } from './change-in-words.ts'
import type { StepText } from './field-entry-in-words.ts'
import { Moment } from './moment.tsx'
import { isEnteredEarlier, momentInWords } from './moment-in-words.ts'
import './record.css'
import { TakeOut } from './take-out.tsx'
import { Who } from './who.tsx'

/** Entries shown before the person asks for more. */
const PAGE = 20

interface Props {
  readonly thing: Thing
  /** As people know it: "cover, bushing cover, A phase". */
  readonly name: string
  /** Of field work: what its steps say. */
  readonly stepText?: StepText
}

/** Who changed a thing, when, and what from what to what: newest first. */
export function Timeline({ thing, name, stepText }: Props) {
  const maySee = useMay('see who changed what')
  const { data, error, isPending, refetch } = useHistory(thing, maySee)
  const [shown, setShown] = useState(PAGE)
  if (!maySee) {
    return <EmptyNote what="Who changed what is not shown in the role in which you act." />
  }
  const entries = data?.entries.toReversed() ?? []
  return (
    <section className="stack record-panel" aria-label={`History of ${name}`}>
      {isPending && <LoadingNote what="Reading the history…" />}
      {error && (
        <ErrorNote
          title="The history could not be read."
          error={error}
          onRetry={() => void refetch()}
        />
      )}
      {data && entries.length === 0 && (
        <EmptyNote what="Nothing is written of it yet. Every change from now on will stand here." />
      )}
      {entries.length > 0 && (
        <ol className="timeline" aria-label={`Changes of ${name}, newest first`}>
          {entries.slice(0, shown).map((entry) => (
            <TimelineEntry key={entry.seq} entry={entry} {...(stepText && { stepText })} />
          ))}
        </ol>
      )}
      {entries.length > shown && (
        <Button onClick={() => setShown(shown + PAGE)}>
          Show {Math.min(PAGE, entries.length - shown)} earlier of {entries.length - shown}
        </Button>
      )}
      <TakeOut thing={thing} />
    </section>
  )
}

interface EntryProps extends Pick<Props, 'stepText'> {
  readonly entry: HistoryEntry
}

function TimelineEntry({ entry, stepText }: EntryProps) {
  const { headline, fields } = changeInWords(entry, stepText)
  const { at, deviceAt, actorId, actorRole } = entry
  return (
    <li className="timeline-entry">
      <span className="timeline-headline">{headline}</span>
      {fields.length > 0 && <ChangedFields fields={fields} />}
      <span className="soft small">
        <Who id={actorId} role={actorRole} />, <Moment at={at} />
        {isEnteredEarlier(deviceAt, at) &&
          `; entered on the device ${momentInWords(deviceAt)}, without connection`}
      </span>
    </li>
  )
}

function ChangedFields({ fields }: { readonly fields: readonly FieldChange[] }) {
  return (
    <ul className="timeline-fields">
      {fields.map(({ label, from, to }) => (
        <li key={label}>
          <span className="soft">{label}:</span> <Before text={from} />
          <span aria-hidden="true"> → </span>
          <span className="visually-hidden"> became </span>
          {to || <span className="soft">nothing</span>}
        </li>
      ))}
    </ul>
  )
}

function Before({ text }: { readonly text: string }) {
  return text === '' ? <span className="soft">nothing</span> : <del>{text}</del>
}
