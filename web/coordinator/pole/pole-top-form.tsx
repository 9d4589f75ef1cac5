import { useState } from 'react'
import { FRAMINGS } from '#domain/avian/pole-top/framing.ts'
import { poleTopOf } from '#domain/avian/pole-top/pole-top-of.ts'
import type { PoleBirds } from '../../birds/use-pole-birds.ts'
import { Meanwhile } from '../../record/meanwhile.tsx'
import { useFeeder } from '../../state/feeder.tsx'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { ErrorNote } from '../../ui/state-note.tsx'
import { AddedPartForm } from './added-part-form.tsx'
import { ChoiceField } from './choice-field.tsx'
import { DimensionFields } from './dimension-fields.tsx'
import {
  type ChosenKey,
  draftOfChosen,
  draftOfPoleTop,
  fieldsOfDraft,
  fieldsOfPoleTop,
  type PoleTopDraft,
  poleTopDrafts,
} from './pole-top-draft.ts'
import { poleTopFields } from './pole-top-fields.ts'
import { TextField } from './text-field.tsx'
import { usePoleTopSave } from './use-pole-top-save.ts'

interface Props {
  readonly birds: PoleBirds
  readonly onDone: () => void
}

/** What a person measured or saw at the top of one pole. What is typed is kept until it is saved. */
export function PoleTopForm({ birds: { site, choice, assessment }, onDone }: Props) {
  const feederId = useFeeder().feeder.header.id
  const { units } = useSelection()
  const poleId = site.pole.id
  const key = `${feederId}~${poleId}`
  const [opened] = useState(() => draftOfPoleTop(choice, units))
  const draft = poleTopDrafts.use(key) ?? opened
  const keep = (change: Partial<PoleTopDraft>) => poleTopDrafts.keep(key, { ...draft, ...change })
  const letGo = () => {
    poleTopDrafts.keep(key, null)
    onDone()
  }
  const saving = usePoleTopSave(feederId, poleId, letGo)
  const standing = saving.newer ?? choice
  return (
    <form
      className="stack item-form"
      aria-label={`Measure pole ${poleId}`}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        saving.save(draft)
      }}
    >
      <h4>Measure this pole</h4>
      <p className="small">
        From the ground or from drawings unless a qualified worker is up there anyway: nobody climbs
        or reaches near energized parts for this. What is left empty stays as the framing gives it.
      </p>
      {standing && standing.version > draft.version && (
        <Meanwhile
          thing={{ subject: 'pole-top', subjectId: standing.id, feederId }}
          what="this pole top"
          fields={poleTopFields(draft.units)}
          typedOn={draft.version}
          base={draft.base}
          mine={fieldsOfDraft(draft)}
          standing={{
            version: standing.version,
            fields: fieldsOfPoleTop(standing),
            isDeleted: standing.deletedAt !== null,
          }}
          isRefused={saving.newer !== null}
          isSaving={saving.isSaving}
          onSave={(chosen) => {
            const merged = draftOfChosen(chosen, standing, draft.units)
            poleTopDrafts.keep(key, merged)
            saving.save(merged)
          }}
          onDropMine={letGo}
        />
      )}
      <ChosenFields
        draft={draft}
        hasRegulator={site.equipment.some(({ kind }) => kind === 'regulator')}
        onChoose={(name, value) => keep({ chosen: { ...draft.chosen, [name]: value } })}
      />
      <DimensionFields
        draft={draft}
        faults={saving.faults}
        onType={(name, text) => keep({ measured: { ...draft.measured, [name]: text } })}
      />
      <WithoutParts
        draft={draft}
        parts={poleTopOf({ ...site, choice: null })?.parts ?? assessment.poleTop?.parts ?? []}
        onChange={(withoutParts) => keep({ withoutParts })}
      />
      <AddedParts draft={draft} onChange={(addedParts) => keep({ addedParts })} />
      <TextField
        label="Note"
        isLong
        value={draft.chosen.note ?? ''}
        onType={(note) => keep({ chosen: { ...draft.chosen, note } })}
      />
      {saving.faults.form && <p role="alert">{saving.faults.form}</p>}
      {saving.error && (
        <ErrorNote title="Not saved; what you typed is still here" error={saving.error} />
      )}
      <div className="row">
        <Button type="submit" look="main" disabled={saving.isSaving}>
          {saving.isSaving ? 'Saving…' : 'Save what was measured'}
        </Button>
        <Button onClick={letGo}>Give up</Button>
      </div>
    </form>
  )
}

interface ChosenProps {
  readonly draft: PoleTopDraft
  readonly hasRegulator: boolean
  readonly onChoose: (name: ChosenKey, value: string) => void
}

const IMPLIED = { '': 'as the record implies' } as const
const CHOICES = [
  ['framing', 'Framing', FRAMINGS, false],
  ['armMaterial', 'Arm', ['wood', 'steel', 'fibreglass'], false],
  ['groundWire', 'Ground wire', ['none', 'to the neutral', 'to the pole top'], false],
  ['regulatorConnection', 'Regulators connected', ['wye', 'open delta', 'closed delta'], true],
  ['regulatorMounting', 'Regulators mounted', ['platform', 'on the pole'], true],
] as const

function ChosenFields({ draft, hasRegulator, onChoose }: ChosenProps) {
  return (
    <div className="item-form-pair">
      {CHOICES.filter(([, , , ofRegulator]) => hasRegulator || !ofRegulator).map(
        ([name, label, options]) => (
          <ChoiceField<string>
            key={name}
            label={label}
            options={['', ...options]}
            value={draft.chosen[name] ?? ''}
            words={IMPLIED}
            onChoose={(value) => onChoose(name, value)}
          />
        ),
      )}
    </div>
  )
}

interface WithoutProps {
  readonly draft: PoleTopDraft
  readonly parts: readonly { readonly id: string; readonly label: string }[]
  readonly onChange: (withoutParts: string[]) => void
}

function WithoutParts({ draft: { withoutParts }, parts, onChange }: WithoutProps) {
  return (
    <details>
      <summary>Parts that are not there ({withoutParts.length})</summary>
      <fieldset className="part-boxes">
        <legend className="field-label">The framing gives these; tick what this pole lacks</legend>
        {parts.map(({ id, label }) => (
          <label key={id} className="part-box">
            <input
              type="checkbox"
              checked={withoutParts.includes(id)}
              onChange={(event) =>
                onChange(
                  event.target.checked
                    ? [...withoutParts, id]
                    : withoutParts.filter((other) => other !== id),
                )
              }
            />
            {label}
          </label>
        ))}
      </fieldset>
    </details>
  )
}

interface AddedProps {
  readonly draft: PoleTopDraft
  readonly onChange: (addedParts: PoleTopDraft['addedParts']) => void
}

function AddedParts({ draft: { addedParts, units }, onChange }: AddedProps) {
  return (
    <details>
      <summary>Parts that the framing does not give ({addedParts.length})</summary>
      <ul className="part-rows">
        {addedParts.map(({ id, label, kind }) => (
          <li key={id} className="part-row">
            <span>
              {label} <span className="soft">({kind})</span>
            </span>
            <Button
              aria-label={`Take out ${label}`}
              onClick={() => onChange(addedParts.filter((part) => part.id !== id))}
            >
              Take out
            </Button>
          </li>
        ))}
      </ul>
      <AddedPartForm
        units={units}
        taken={addedParts.map(({ id }) => id)}
        onAdd={(part) => onChange([...addedParts, part])}
      />
    </details>
  )
}
