import { Field } from '../../ui/field.tsx'

interface Props<Value extends string> {
  readonly label: string
  readonly hint?: string
  readonly options: readonly Value[]
  readonly value: Value
  /** For options that are not their own words. */
  readonly words?: Partial<Readonly<Record<Value, string>>>
  readonly onChoose: (value: Value) => void
}

/** A labelled choice of a few values. */
export function ChoiceField<Value extends string>(props: Props<Value>) {
  const { label, hint, options, value, words, onChoose } = props
  return (
    <Field label={label} hint={hint}>
      {(control) => (
        <select
          className="input"
          value={value}
          onChange={(event) => {
            const chosen = options.find((option) => option === event.target.value)
            if (chosen !== undefined) onChoose(chosen)
          }}
          {...control}
        >
          {options.map((option) => (
            <option key={option} value={option}>
              {words?.[option] ?? option}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
