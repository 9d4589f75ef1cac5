import { Field } from '../ui/field.tsx'
import { chooseSeasonMonth, MONTH_NAMES, useSeasonMonth } from './season-month.ts'

/** Month for which nests are called in or out of season, here and on the map. */
export function MonthChoice() {
  const month = useSeasonMonth()
  return (
    <Field label="Month for nest seasons">
      {(control) => (
        <select
          className="input"
          value={month}
          onChange={(event) => chooseSeasonMonth(Number(event.target.value))}
          {...control}
        >
          {MONTH_NAMES.map((name, index) => (
            <option key={name} value={index + 1}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
