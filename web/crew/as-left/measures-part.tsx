import { Button } from '../../ui/button.tsx'
import { type MeasureRow, measureField, measureKey } from './as-left-fields.ts'
import type { PartProps } from './part-props.ts'
import { TypedField } from './typed-field.tsx'

interface Props extends PartProps {
  readonly measures: readonly MeasureRow[]
}

/** Covers, perches and the like: done, or not and why. */
export function MeasuresPart({ measures, fields, faults, onType }: Props) {
  if (measures.length === 0) return null
  return (
    <fieldset className="as-left-part">
      <legend>Bird work</legend>
      <ul className="stack">
        {measures.map((row) => (
          <li key={measureKey(row)} className="stack">
            <Measure row={row} fields={fields} faults={faults} onType={onType} />
          </li>
        ))}
      </ul>
    </fieldset>
  )
}

const ANSWERS = ['done', 'not done'] as const

function Measure({ row, fields, faults, onType }: PartProps & { readonly row: MeasureRow }) {
  const isDone = measureField(row, 'isDone')
  const why = measureField(row, 'why')
  const material = measureField(row, 'materialClass')
  const said = fields[isDone] ?? ''
  return (
    <>
      <fieldset className="work-choices">
        <legend>
          Pole {row.pole}: {row.measure}
          {row.partIds.length > 0 && `, ${row.partIds.join(', ')}`}
          {row.dimensionM !== undefined && `, ${row.dimensionM} m`}
        </legend>
        {ANSWERS.map((answer) => (
          <Button
            key={answer}
            className="work-choice"
            isPressed={said === answer}
            onClick={() => onType({ [isDone]: answer })}
          >
            {answer === 'done' ? 'Done' : 'Not done'}
          </Button>
        ))}
      </fieldset>
      {faults[isDone] && <p className="field-fault">{faults[isDone]}</p>}
      {said === 'not done' && (
        <TypedField
          label="Why not"
          kind="text"
          value={fields[why] ?? ''}
          fault={faults[why]}
          onType={(value) => onType({ [why]: value })}
        />
      )}
      {said === 'done' && (
        <TypedField
          label="Material, as marked on it"
          kind="text"
          value={fields[material] ?? ''}
          fault={faults[material]}
          onType={(value) => onType({ [material]: value })}
        />
      )}
    </>
  )
}
