import { useMemo } from 'react'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { stepLeftOutFor } from '#domain/jobs/bird-work-left-out.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { measureInWords } from '../../birds/measure-words.ts'
import { usePoleBirds } from '../../birds/use-pole-birds.ts'
import { capitalised } from '../../jobs/job-words.ts'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { type MeasureRow, measureField, measureKey } from './as-left-fields.ts'
import type { PartProps } from './part-props.ts'
import { TypedField } from './typed-field.tsx'

interface Props extends PartProps {
  readonly plan: JobPlan
  readonly measures: readonly MeasureRow[]
  readonly entries: readonly JobEntry[]
}

/** Covers, perches and the like: done, or not and why. */
export function MeasuresPart({ measures, ...part }: Props) {
  const poles = [...new Set(measures.map(({ pole }) => pole))]
  return poles.map((pole) => (
    <PoleMeasures
      key={pole}
      pole={pole}
      measures={measures.filter((row) => row.pole === pole)}
      {...part}
    />
  ))
}

function PoleMeasures({ plan, pole, measures, ...part }: Props & { readonly pole: string }) {
  const regulator = plan.bank?.regulator
  const proposed = useMemo(
    () => (regulator?.pole === pole && plan.kind === 'set a bank' ? [regulator] : []),
    [regulator, pole, plan.kind],
  )
  const parts = usePoleBirds(pole, proposed).found?.assessment.poleTop?.parts ?? []
  return (
    <fieldset className="as-left-part">
      <legend>Bird work at pole {pole}</legend>
      <ul className="stack">
        {measures.map((row) => (
          <li key={measureKey(row)} className="stack">
            <Measure row={row} parts={parts} {...part} />
          </li>
        ))}
      </ul>
    </fieldset>
  )
}

const ANSWERS = ['done', 'not done'] as const

interface MeasureProps extends PartProps {
  readonly row: MeasureRow
  readonly parts: readonly Part[]
  readonly entries: readonly JobEntry[]
}

function Measure({ row, parts, entries, fields, faults, onType }: MeasureProps) {
  const { units } = useSelection()
  const isDone = measureField(row, 'isDone')
  const why = measureField(row, 'why')
  const material = measureField(row, 'materialClass')
  const said = fields[isDone] ?? ''
  const stepLeftOut = said === 'done' ? stepLeftOutFor(row, entries) : undefined
  return (
    <>
      <fieldset className="work-choices" name={isDone}>
        <legend>{capitalised(measureInWords({ ...row, kind: row.measure }, parts, units))}</legend>
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
          name={why}
          label="Why not"
          kind="text"
          value={fields[why] ?? ''}
          fault={faults[why]}
          onType={(value) => onType({ [why]: value })}
        />
      )}
      {stepLeftOut && (
        <TypedField
          name={why}
          label="How it was done after all"
          hint={`Its step was left out, because: ${stepLeftOut.why}`}
          kind="text"
          value={fields[why] ?? ''}
          fault={faults[why]}
          onType={(value) => onType({ [why]: value })}
        />
      )}
      {said === 'done' && (
        <TypedField
          name={material}
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
