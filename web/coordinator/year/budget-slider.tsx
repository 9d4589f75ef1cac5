import type { Programme } from '#domain/avian/programme/programme.ts'
import { counted, usd } from '../../state/format.ts'
import { Field } from '../../ui/field.tsx'
import { FigureField } from '../figure-field.tsx'
import { BudgetCurve } from './budget-curve.tsx'
import { percent, pointWithin, shareOf } from './curve-point.ts'
import type { PlanChoices } from './plan-choices.ts'

const STEP_USD = 500
/** Where the slider ends until the curve says what all poles cost. */
const FIRST_MOST_USD = 100_000

interface Props {
  readonly choices: PlanChoices
  /** The last that was worked out; its curve serves every budget. */
  readonly programme: Programme | null
  readonly onChange: (budgetUsd: number) => void
}

/** The budget, as a slider over the curve and as a figure. */
export function BudgetSlider({ choices: { budgetUsd }, programme, onChange }: Props) {
  const allUsd = programme?.curve.at(-1)?.budgetUsd ?? FIRST_MOST_USD
  const mostUsd = Math.max(STEP_USD, Math.ceil(allUsd / STEP_USD) * STEP_USD, budgetUsd)
  const point = programme && pointWithin(programme.curve, budgetUsd)
  const hint = point
    ? `By the curve: about ${counted(point.poles, 'pole')}, ${percent(shareOf(point.reduction, programme.reductionPossible))} of what could be taken away.`
    : 'The curve comes with the first plan.'
  return (
    <>
      <Field label="Budget" hint={hint}>
        {(control) => (
          <input
            type="range"
            className="budget-slider"
            min={0}
            max={mostUsd}
            step={STEP_USD}
            value={budgetUsd}
            aria-valuetext={usd(budgetUsd)}
            onChange={({ target }) => onChange(Number(target.value))}
            {...control}
          />
        )}
      </Field>
      <FigureField
        label="Budget as a figure"
        unit="$"
        most={1e9}
        value={budgetUsd}
        onChange={(typed) => typed !== null && onChange(typed)}
      />
      {programme && <BudgetCurve programme={programme} budgetUsd={budgetUsd} />}
    </>
  )
}
