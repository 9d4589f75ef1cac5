import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { otherSign } from '../work/other-sign.ts'

interface Props {
  /** Of the field in its form, so that a fault can lead to it. */
  readonly name: string
  readonly label: string
  readonly unit?: string
  readonly kind: 'text' | 'number' | 'tap'
  readonly value: string
  readonly hint?: string
  readonly fault?: string
  readonly onType: (value: string) => void
}

/** One line of the form; numbers get a keypad, those that may be below zero a key for the sign. */
export function TypedField({ name, label, unit, kind, value, hint, fault, onType }: Props) {
  return (
    <Field label={label} unit={unit} hint={hint} fault={fault}>
      {(control) => (
        <span className="work-number">
          {kind === 'tap' && (
            <Button
              className="work-sign"
              aria-label={`Change the sign of “${label}”`}
              onClick={() => onType(otherSign(value))}
            >
              ±
            </Button>
          )}
          <input
            {...control}
            name={name}
            className="input work-input"
            autoComplete="off"
            inputMode={kind === 'text' ? 'text' : 'decimal'}
            maxLength={kind === 'text' ? 2000 : 20}
            value={value}
            onChange={({ target }) => onType(target.value)}
          />
        </span>
      )}
    </Field>
  )
}
