import { Field } from '../../ui/field.tsx'

interface Props {
  readonly label: string
  readonly hint?: string
  readonly fault?: string | null
  readonly unit?: string
  readonly type?: 'text' | 'date' | 'decimal'
  readonly isLong?: boolean
  readonly value: string
  readonly onType: (text: string) => void
}

/** A labelled field for text, a date or a figure; what is typed stays as typed. */
export function TextField(props: Props) {
  const { label, hint, fault, unit, type = 'text', isLong = false, value, onType } = props
  return (
    <Field label={label} hint={hint} fault={fault} unit={unit}>
      {(control) =>
        isLong ? (
          <textarea
            className="input"
            rows={2}
            value={value}
            onChange={(event) => onType(event.target.value)}
            {...control}
          />
        ) : (
          <input
            className="input"
            type={type === 'date' ? 'date' : 'text'}
            inputMode={type === 'decimal' ? 'decimal' : undefined}
            value={value}
            onChange={(event) => onType(event.target.value)}
            {...control}
          />
        )
      }
    </Field>
  )
}
