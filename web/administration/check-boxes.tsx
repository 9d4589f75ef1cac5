import { useId } from 'react'

interface Choice<Value extends string> {
  readonly value: Value
  readonly words: string
  readonly hint?: string
}

interface Props<Value extends string> {
  readonly legend: string
  readonly choices: readonly Choice<Value>[]
  readonly chosen: readonly Value[]
  readonly fault: string | null
  /** In the order of the choices. */
  readonly onChoose: (chosen: Value[]) => void
}

/** Several of a few, as check boxes with a line on each. */
export function CheckBoxes<Value extends string>(props: Props<Value>) {
  const { legend, choices, chosen, fault, onChoose } = props
  const id = useId()
  const turn = (value: Value, isOn: boolean) =>
    onChoose(
      choices
        .map((choice) => choice.value)
        .filter((each) => (each === value ? isOn : chosen.includes(each))),
    )
  return (
    <fieldset className="check-boxes" aria-describedby={fault ? `${id}-fault` : undefined}>
      <legend className="field-label">{legend}</legend>
      {choices.map(({ value, words, hint }) => (
        <div key={value} className="check-box">
          <input
            id={`${id}-${value}`}
            type="checkbox"
            checked={chosen.includes(value)}
            aria-describedby={hint ? `${id}-${value}-hint` : undefined}
            onChange={({ target }) => turn(value, target.checked)}
          />
          <label htmlFor={`${id}-${value}`}>{words}</label>
          {hint && (
            <span id={`${id}-${value}-hint`} className="small soft">
              {hint}
            </span>
          )}
        </div>
      ))}
      {fault && (
        <span id={`${id}-fault`} className="field-fault" role="alert">
          {fault}
        </span>
      )}
    </fieldset>
  )
}
