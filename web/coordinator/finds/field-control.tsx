import { Field, type FieldControl } from '../../ui/field.tsx'
import type { FormField } from './form-field.ts'

interface Props {
  readonly field: FormField
  readonly value: string
  readonly fault?: string | undefined
  readonly onType: (value: string) => void
}

/** One field of a form, as its kind asks for. */
export function FieldControlOf({ field, value, fault, onType }: Props) {
  const { label, hint, unit } = field
  return (
    <Field label={label} {...(hint && { hint })} {...(unit && { unit })} {...(fault && { fault })}>
      {(control) => <Control field={field} value={value} control={control} onType={onType} />}
    </Field>
  )
}

interface ControlProps {
  readonly field: FormField
  readonly value: string
  readonly control: FieldControl
  readonly onType: (value: string) => void
}

const INPUT_TYPES = { line: 'text', date: 'date', time: 'time', number: 'text' } as const

function Control({ field, value, control, onType }: ControlProps) {
  const common = {
    ...control,
    className: 'input',
    value,
    onChange: ({ target }: { readonly target: { readonly value: string } }) => onType(target.value),
  }
  switch (field.control) {
    case 'words':
      return <textarea {...common} rows={2} maxLength={2000} />
    case 'choice':
      return <Choice options={field.options ?? []} common={common} />
    case 'yes or no':
      return <Choice options={['yes', 'no']} common={common} />
    default:
      return (
        <>
          <input
            {...common}
            type={INPUT_TYPES[field.control]}
            maxLength={200}
            inputMode={field.control === 'number' ? 'decimal' : undefined}
            list={field.suggestions ? `${control.id}-list` : undefined}
          />
          {field.suggestions && (
            <datalist id={`${control.id}-list`}>
              {field.suggestions.map((suggestion) => (
                <option key={suggestion} value={suggestion} />
              ))}
            </datalist>
          )}
        </>
      )
  }
}

interface ChoiceProps {
  readonly options: readonly string[]
  readonly common: React.ComponentProps<'select'>
}

function Choice({ options, common }: ChoiceProps) {
  return (
    <select {...common}>
      <option value="">not said</option>
      {options.map((option) => (
        <option key={option} value={option}>
          {option}
        </option>
      ))}
    </select>
  )
}
