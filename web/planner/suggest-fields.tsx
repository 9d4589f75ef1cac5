import { useSelection } from '../state/selection.ts'
import { Field } from '../ui/field.tsx'
import type { ChoiceFaults, NumberChoice, SuggestChoices } from './suggest-choices.ts'

interface Props {
  readonly choices: SuggestChoices
  readonly faults: ChoiceFaults
  readonly onChange: (next: SuggestChoices) => void
}

interface NumberField {
  readonly name: NumberChoice
  readonly label: string
  /** Left out for a length, which is in the person's units. */
  readonly unit?: string
  readonly hint?: string
}

const JUDGED: readonly NumberField[] = [
  { name: 'lowVolts120', label: 'Low limit, primary', unit: 'V' },
  { name: 'highVolts120', label: 'High limit, primary', unit: 'V' },
  { name: 'ratingMarginPct', label: 'Margin above highest current', unit: '%' },
]
const SCREENED: readonly NumberField[] = [
  { name: 'accessWithinM', label: 'Farthest from a road or track' },
  { name: 'leastPoleHeightM', label: 'Shortest pole' },
  {
    name: 'weakestPoleClass',
    label: 'Weakest pole class',
    unit: '1 to 10',
    hint: 'Class 1 is the strongest.',
  },
  { name: 'mostLineAngleDeg', label: 'Sharpest turn of the line', unit: '°' },
]
const MONEY: readonly NumberField[] = [
  { name: 'energyUsdPerKwh', label: 'Price of energy lost', unit: '$ per kWh' },
  { name: 'bankUsd', label: 'Installed, per bank', unit: '$' },
  { name: 'unitUsd', label: 'Installed, per unit', unit: '$' },
  { name: 'transformerMoveUsd', label: 'Moving a service transformer', unit: '$ each' },
  { name: 'studyYears', label: 'Years of study', unit: 'years' },
  { name: 'discountRatePct', label: 'Discount rate', unit: '%' },
]

/** Everything that a study assumes, with the usual figure in place. */
export function SuggestFields(props: Props) {
  return (
    <>
      <fieldset className="planner-fields">
        <legend>What to look for</legend>
        <WayChoices {...props} />
        <Numbers {...props} fields={JUDGED} />
        <CompensationChoice {...props} />
      </fieldset>
      <fieldset className="planner-fields">
        <legend>Which poles may carry it</legend>
        <MonthChoice {...props} />
        <Numbers {...props} fields={SCREENED} />
        <TransformerChoice {...props} />
      </fieldset>
      <fieldset className="planner-fields">
        <legend>Money: every figure is an assumption, put in your own</legend>
        <Numbers {...props} fields={MONEY} />
      </fieldset>
    </>
  )
}

function WayChoices({ choices, onChange }: Props) {
  return (
    <>
      <Field label="Banks">
        {(control) => (
          <select
            {...control}
            className="input"
            value={choices.banks}
            onChange={({ target }) =>
              onChange({ ...choices, banks: target.value === '2' ? '2' : '1' })
            }
          >
            <option value="1">One bank</option>
            <option value="2">Two banks</option>
          </select>
        )}
      </Field>
      <Field label="What comes first">
        {(control) => (
          <select
            {...control}
            className="input"
            value={choices.goal}
            onChange={({ target }) =>
              onChange({ ...choices, goal: target.value === 'loss' ? 'loss' : 'service' })
            }
          >
            <option value="service">Customers’ volts</option>
            <option value="loss">Least loss</option>
          </select>
        )}
      </Field>
    </>
  )
}

function CompensationChoice({ choices, onChange }: Props) {
  return (
    <Field
      label="Band centre and line-drop compensation"
      hint="Worked out for each proposal, where it is worth it. Plain: the usual centre, no compensation."
    >
      {(control) => (
        <select
          {...control}
          className="input"
          value={choices.compensation}
          onChange={({ target }) =>
            onChange({ ...choices, compensation: target.value === 'none' ? 'none' : 'worked out' })
          }
        >
          <option value="worked out">Work them out</option>
          <option value="none">Keep them plain</option>
        </select>
      )}
    </Field>
  )
}

function TransformerChoice({ choices, onChange }: Props) {
  return (
    <Field
      label="Poles with a single-phase transformer"
      hint="It can often move to the next pole, at the cost below; your standards decide."
    >
      {(control) => (
        <select
          {...control}
          className="input"
          value={choices.serviceTransformers}
          onChange={({ target }) =>
            onChange({
              ...choices,
              serviceTransformers: target.value === 'caution' ? 'caution' : 'rule out',
            })
          }
        >
          <option value="rule out">Rule them out</option>
          <option value="caution">Try them too</option>
        </select>
      )}
    </Field>
  )
}

const MONTHS = Array.from({ length: 12 }, (_, index) =>
  new Date(2000, index, 1).toLocaleString('en-US', { month: 'long' }),
)

function MonthChoice({ choices, onChange }: Props) {
  return (
    <Field
      label="Month of the work"
      hint="Decides which nest seasons count: all of them while it is not decided."
    >
      {(control) => (
        <select
          {...control}
          className="input"
          value={choices.workMonth}
          onChange={({ target }) => onChange({ ...choices, workMonth: target.value })}
        >
          <option value="">Not decided</option>
          {MONTHS.map((name, index) => (
            <option key={name} value={String(index + 1)}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function Numbers({
  choices,
  faults,
  onChange,
  fields,
}: Props & { readonly fields: readonly NumberField[] }) {
  const { units } = useSelection()
  const lengthUnit = units === 'us' ? 'ft' : 'm'
  return fields.map(({ name, label, unit = lengthUnit, hint }) => (
    <Field key={name} label={label} unit={unit} hint={hint} fault={faults[name]}>
      {(control) => (
        <input
          {...control}
          className="input"
          inputMode="decimal"
          value={choices.numbers[name]}
          onChange={({ target }) =>
            onChange({ ...choices, numbers: { ...choices.numbers, [name]: target.value } })
          }
        />
      )}
    </Field>
  ))
}
