interface Props<Value extends string> {
  readonly label: string
  readonly value: Value
  readonly choices: readonly (readonly [Value, string])[]
  readonly onChoose: (value: Value) => void
}

/** One labelled choice of the top bar. */
export function BarSelect<Value extends string>({ label, value, choices, onChoose }: Props<Value>) {
  return (
    <label className="top-bar-field">
      <span className="top-bar-label">{label}</span>
      <select
        className="input"
        value={value}
        onChange={({ target }) => {
          const chosen = choices.find(([name]) => name === target.value)
          if (chosen) onChoose(chosen[0])
        }}
      >
        {choices.map(([name, words]) => (
          <option key={name} value={name}>
            {words}
          </option>
        ))}
      </select>
    </label>
  )
}
