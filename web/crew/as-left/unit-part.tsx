import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Phase } from '#domain/units/phases.ts'
import { type FormShape, unitField } from './as-left-fields.ts'
import type { PartProps } from './part-props.ts'
import { TypedField } from './typed-field.tsx'

interface Props extends PartProps {
  readonly plan: JobPlan
  readonly shape: FormShape
  readonly phase: Phase
}

/** One unit of the bank as it is left. */
export function UnitPart({ plan, shape, phase, fields, faults, onType }: Props) {
  return (
    <fieldset className="as-left-part">
      <legend>{phase} phase unit</legend>
      <div className="as-left-grid">
        {shape.unitFields.map(({ key, label, unit, kind }) => {
          const name = unitField(phase, key)
          return (
            <TypedField
              key={key}
              name={name}
              label={label}
              unit={unit}
              kind={kind}
              hint={plannedRating(plan, key)}
              value={fields[name] ?? ''}
              fault={faults[name]}
              onType={(value) => onType({ [name]: value })}
            />
          )
        })}
      </div>
    </fieldset>
  )
}

/** What the nameplate should say; it is read, not taken over. */
function plannedRating(plan: JobPlan, key: string): string | undefined {
  const { ratingKva, ratingA } = plan.bank?.regulator ?? {}
  if (key === 'ratingKva' && ratingKva !== undefined) return `Planned: ${ratingKva} kVA.`
  if (key === 'ratingA' && ratingA !== undefined) return `Planned: ${ratingA} A.`
  return undefined
}
