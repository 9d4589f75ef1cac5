import { Field } from '../ui/field.tsx'

interface Props {
  readonly value: string
  readonly isMissing: boolean
  readonly onType: (password: string) => void
}

/** Asked again before anything by which one signs in is changed. */
export function CurrentPassword({ value, isMissing, onType }: Props) {
  return (
    <Field label="Your present password" fault={isMissing ? 'Give your present password.' : null}>
      {(control) => (
        <input
          className="input"
          type="password"
          autoComplete="current-password"
          value={value}
          onChange={({ target }) => onType(target.value)}
          {...control}
        />
      )}
    </Field>
  )
}
