import { useId, useState } from 'react'
import type { Thing } from '../api/history.ts'
import { Button } from '../ui/button.tsx'
import {
  type Choices,
  type ComparedField,
  chosenOf,
  compareFields,
  type Fields,
  mergeFields,
  openChoices,
  type Whose,
} from './merge-fields.ts'
import { Moment } from './moment.tsx'
import { type RecordField, shownValue } from './record-fields.ts'
import './record.css'
import { useWriter } from './use-writer.ts'
import { Who } from './who.tsx'

interface Props {
  readonly thing: Thing
  /** Of what stands now. */
  readonly version: number
  /** "this item", "this proposal": in the middle of a sentence. */
  readonly what: string
  readonly fields: readonly RecordField[]
  /** As it stood when the form was opened; null where that is not at hand. */
  readonly base: Fields | null
  readonly mine: Fields
  readonly theirs: Fields
  readonly isSaving?: boolean
  readonly onSave: (merged: Fields) => void
  readonly onDropMine: () => void
}

/** What was typed beside what someone else saved meanwhile: the person chooses field by field. */
export function SideBySide(props: Props) {
  const { thing, version, what, fields, base, mine, theirs, isSaving, onSave, onDropMine } = props
  const { name, entry } = useWriter(thing, version)
  const [choices, setChoices] = useState<Choices>({})
  const keys = fields.map(({ key }) => key)
  const compared = compareFields(keys, base, mine, theirs)
  const differing = compared.filter((field) => field.changedBy !== 'nobody')
  const open = openChoices(compared, choices)
  const labels = new Map(fields.map((field) => [field.key, field]))
  const openLabels = open.map((key) => labels.get(key)?.label ?? key)
  return (
    <section className="side-by-side stack" role="alert" aria-label={`Two versions of ${what}`}>
      <p>
        <strong>
          {name} changed {what} while you were typing.
        </strong>{' '}
        Nothing of yours is lost. Choose what shall stand.
      </p>
      {entry && (
        <p className="small soft">
          “What stands now” is by <Who id={entry.actorId} role={entry.actorRole} />,{' '}
          <Moment at={entry.at} />.
        </p>
      )}
      {differing.map((field) => (
        <FieldChoice
          key={field.key}
          field={field}
          label={labels.get(field.key) ?? { key: field.key, label: field.key }}
          chosen={chosenOf(field, choices)}
          onChoose={(whose) => setChoices({ ...choices, [field.key]: whose })}
        />
      ))}
      {differing.length === 0 && <p>Both say the same.</p>}
      <div className="row">
        <Button
          look="main"
          disabled={open.length > 0 || isSaving}
          onClick={() => onSave(mergeFields(compared, choices))}
        >
          {isSaving ? 'Saving…' : 'Save what is chosen'}
        </Button>
        <Button onClick={onDropMine}>Keep what stands now</Button>
      </div>
      {open.length > 0 && <p className="small soft">Still to choose: {openLabels.join(', ')}.</p>}
    </section>
  )
}

interface ChoiceProps {
  readonly field: ComparedField
  readonly label: RecordField
  readonly chosen: Whose | null
  readonly onChoose: (whose: Whose) => void
}

const SAID: Readonly<Record<ComparedField['changedBy'], string>> = {
  nobody: '',
  me: 'changed by you alone',
  them: 'changed by them alone',
  both: 'changed by both',
  unknown: 'differs',
}

function FieldChoice({ field, label, chosen, onChoose }: ChoiceProps) {
  const group = useId()
  const option = (whose: Whose, title: string, value: string) => (
    <label className="side-choice" data-chosen={chosen === whose}>
      <span className="side-choice-head">
        <input
          type="radio"
          name={group}
          checked={chosen === whose}
          onChange={() => onChoose(whose)}
        />
        {title}
      </span>
      <span className="side-choice-value">
        {shownValue(label, value) || <span className="soft">nothing</span>}
      </span>
    </label>
  )
  return (
    <fieldset className="side-field">
      <legend>
        {label.label}
        <span className="side-said">, {SAID[field.changedBy]}</span>
      </legend>
      {option('mine', 'Yours', field.mine)}
      {option('theirs', 'What stands now', field.theirs)}
    </fieldset>
  )
}
