import { coverFor, isCoverKind } from '#domain/avian/measures/cover-parts.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { ITEM_CONDITIONS, PROTECTION_KINDS, PROTECTION_STATES } from '#domain/feeder/birds.ts'
import { MEASURE_KINDS } from '#domain/feeder/measure-kinds.ts'
import { ChoiceField } from './choice-field.tsx'
import { type DraftFaults, type ItemDraft, partIdsOf } from './item-draft.ts'
import { STATE_WORDS } from './state-mark.tsx'
import { TextField } from './text-field.tsx'

interface Props {
  readonly draft: ItemDraft
  readonly faults: DraftFaults
  /** Of the pole as framed, so that a cover can be told where it sits. */
  readonly parts: readonly Part[]
  readonly onType: (change: Partial<ItemDraft>) => void
}

/** Fields of an installed or planned item: what it is, where it sits, and its last inspection. */
export function ItemFields({ draft, faults, parts, onType }: Props) {
  return (
    <>
      <div className="item-form-pair">
        <ChoiceField
          label="Kind"
          options={PROTECTION_KINDS}
          value={draft.kind}
          onChoose={(kind) => onType({ kind })}
        />
        <ChoiceField
          label="State"
          options={PROTECTION_STATES}
          value={draft.state}
          words={STATE_WORDS}
          onChoose={(state) => onType({ state })}
        />
      </div>
      <TextField
        label="What it covers or where it sits"
        hint="As “bushing cover, A phase”."
        fault={faults.what}
        value={draft.what}
        onType={(what) => onType({ what })}
      />
      <TextField
        label="Date of the state"
        type="date"
        fault={faults.on}
        value={draft.on}
        onType={(on) => onType({ on })}
      />
      <MeasureFields draft={draft} faults={faults} parts={parts} onType={onType} />
      <WorkFields draft={draft} faults={faults} onType={onType} />
      <InspectionFields draft={draft} faults={faults} onType={onType} />
      <TextField label="Note" isLong value={draft.note} onType={(note) => onType({ note })} />
    </>
  )
}

function MeasureFields({ draft, faults, parts, onType }: Props) {
  return (
    <>
      <ChoiceField
        label="Measure"
        hint="What it is in the catalogue; left open, it is told from the words."
        options={['', ...MEASURE_KINDS]}
        value={MEASURE_KINDS.find((kind) => kind === draft.measure) ?? ''}
        words={{ '': 'told from the words' }}
        onChoose={(measure) => onType({ measure, partIds: '' })}
      />
      <CoveredParts draft={draft} parts={parts} onType={onType} />
      {draft.measure !== '' && !isCover(draft.measure) && (
        <TextField
          label="New dimension"
          unit="m"
          type="decimal"
          hint="Of a longer or lowered arm, an extension or longer strings."
          fault={faults.dimensionM}
          value={draft.dimensionM}
          onType={(dimensionM) => onType({ dimensionM })}
        />
      )}
    </>
  )
}

const isCover = (measure: string): boolean =>
  MEASURE_KINDS.some((kind) => kind === measure && isCoverKind(kind))

function CoveredParts({ draft, parts, onType }: Omit<Props, 'faults'>) {
  const fitting = parts.filter((part) => coverFor(part) === draft.measure)
  if (!isCover(draft.measure)) return null
  if (fitting.length === 0) {
    return <p className="small">No part is drawn on this pole that a {draft.measure} fits.</p>
  }
  const chosen = partIdsOf(draft)
  const toggle = (id: string, isOn: boolean) => {
    const next = isOn ? [...chosen, id] : chosen.filter((other) => other !== id)
    onType({ partIds: next.join('\n') })
  }
  return (
    <fieldset className="part-boxes">
      <legend className="field-label">Parts that it covers</legend>
      {fitting.map(({ id, label }) => (
        <label key={id} className="part-box">
          <input
            type="checkbox"
            checked={chosen.includes(id)}
            onChange={(event) => toggle(id, event.target.checked)}
          />
          {label}
        </label>
      ))}
      {chosen.length === 0 && (
        <span className="field-hint">None chosen: all that the words mean.</span>
      )}
    </fieldset>
  )
}

function WorkFields({ draft, faults, onType }: Omit<Props, 'parts'>) {
  return (
    <div className="item-form-pair">
      <TextField
        label="Material class"
        hint="As marked on it: “25 kV, polymer”."
        value={draft.materialClass}
        onType={(materialClass) => onType({ materialClass })}
      />
      <TextField
        label="Installed by"
        value={draft.installedBy}
        onType={(installedBy) => onType({ installedBy })}
      />
      <TextField
        label="Cost"
        unit="US$"
        type="decimal"
        fault={faults.costUsd}
        value={draft.costUsd}
        onType={(costUsd) => onType({ costUsd })}
      />
      <TextField
        label="Inspect every"
        unit="months"
        type="decimal"
        fault={faults.inspectEveryMonths}
        value={draft.inspectEveryMonths}
        onType={(inspectEveryMonths) => onType({ inspectEveryMonths })}
      />
    </div>
  )
}

export const CONDITION_WORDS: Readonly<Record<string, string>> = {
  '': 'not inspected yet',
  tracked: 'tracked (burnt surface)',
}

function InspectionFields({ draft, faults, onType }: Omit<Props, 'parts'>) {
  return (
    <div className="item-form-pair">
      <ChoiceField
        label="Condition"
        options={['', ...ITEM_CONDITIONS]}
        value={ITEM_CONDITIONS.find((condition) => condition === draft.condition) ?? ''}
        words={CONDITION_WORDS}
        onChoose={(condition) => onType({ condition })}
      />
      <TextField
        label="Inspected on"
        type="date"
        fault={faults.inspectedOn}
        value={draft.inspectedOn}
        onType={(inspectedOn) => onType({ inspectedOn })}
      />
    </div>
  )
}
