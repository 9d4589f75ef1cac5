import { type ReactNode, useId } from 'react'
import './field.css'

/** Attributes that tie the control to its label, hint and fault. */
export interface FieldControl {
  readonly id: string
  readonly 'aria-describedby': string | undefined
  readonly 'aria-invalid': boolean | undefined
}

interface Props {
  readonly label: string
  readonly hint?: string
  /** What is wrong and what to do; makes the control invalid. */
  readonly fault?: string | null
  readonly unit?: string
  readonly children: (control: FieldControl) => ReactNode
}

/** A labelled control: `<Field label="Note">{(control) => <input className="input" {...control} />}</Field>`. */
export function Field({ label, hint, fault, unit, children }: Props) {
  const id = useId()
  const noteId = `${id}-note`
  const control: FieldControl = {
    id,
    'aria-describedby': hint || fault ? noteId : undefined,
    'aria-invalid': fault ? true : undefined,
  }
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
        {unit ? ` (${unit})` : ''}
      </label>
      {children(control)}
      {(hint || fault) && (
        <span id={noteId} className={fault ? 'field-fault' : 'field-hint'}>
          {fault || hint}
        </span>
      )}
    </div>
  )
}
