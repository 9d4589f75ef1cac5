import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { Phase } from '#domain/units/phases.ts'
import { Button } from '../../ui/button.tsx'
import type { FormShape } from './as-left-fields.ts'
import type { PartProps } from './part-props.ts'
import { countUnit, unitInWords } from './unit-count.ts'
import { UnitPart } from './unit-part.tsx'

interface Props extends PartProps {
  readonly plan: JobPlan
  readonly shape: FormShape
  readonly shown: Phase
  readonly onShow: (phase: Phase) => void
}

/** The units of the bank one at a time, with how far each is filled in. */
export function UnitsPart({ plan, shape, shown, onShow, ...part }: Props) {
  const { phases } = shape
  const next = phases[phases.indexOf(shown) + 1]
  return (
    <>
      {phases.length > 1 && (
        <fieldset className="work-choices">
          <legend>Units of the bank</legend>
          {phases.map((phase) => (
            <Button
              key={phase}
              className="as-left-unit"
              isPressed={phase === shown}
              onClick={() => onShow(phase)}
            >
              {unitInWords(phase, countUnit(shape, phase, part.fields, part.faults))}
            </Button>
          ))}
        </fieldset>
      )}
      <UnitPart key={shown} plan={plan} shape={shape} phase={shown} {...part} />
      {next && <Button onClick={() => onShow(next)}>Next: the {next} phase unit</Button>}
    </>
  )
}
