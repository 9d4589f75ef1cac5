import { Field } from '../ui/field.tsx'

interface Props {
  readonly name: string
  readonly note: string
  readonly onType: (change: { readonly name?: string; readonly note?: string }) => void
}

/** Under what a proposal is kept. */
export function NameAndNote({ name, note, onType }: Props) {
  return (
    <>
      <Field label="Name" fault={name.trim() === '' ? 'Give it a name to find it by.' : null}>
        {(control) => (
          <input
            {...control}
            className="input"
            value={name}
            maxLength={120}
            onChange={({ target }) => onType({ name: target.value })}
          />
        )}
      </Field>
      <Field label="Note">
        {(control) => (
          <textarea
            {...control}
            className="input"
            rows={3}
            maxLength={4000}
            value={note}
            onChange={({ target }) => onType({ note: target.value })}
          />
        )}
      </Field>
    </>
  )
}
