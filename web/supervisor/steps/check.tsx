interface CheckProps {
  readonly label: string
  readonly isOn: boolean
  readonly onChange: (isOn: boolean) => void
}

/** A yes or no with its words beside it. */
export function Check({ label, isOn, onChange }: CheckProps) {
  return (
    <label className="order-check">
      <input type="checkbox" checked={isOn} onChange={({ target }) => onChange(target.checked)} />
      {label}
    </label>
  )
}
