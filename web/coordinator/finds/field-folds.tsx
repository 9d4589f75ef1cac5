import type { ReactNode } from 'react'
import type { Fields } from '../../record/merge-fields.ts'
import { FieldControlOf } from './field-control.tsx'
import type { Faults } from './find-body.ts'
import type { FieldFold } from './form-field.ts'

interface Props {
  readonly folds: readonly FieldFold[]
  readonly typed: Fields
  readonly faults: Faults
  readonly onType: (change: Fields) => void
  /** What stands at the head of a fold, by its title. */
  readonly heads?: Readonly<Record<string, ReactNode>>
}

/** Fields of a form in folds; the first stands open, the others say how much is filled in. */
export function FieldFolds({ folds, typed, faults, onType, heads = {} }: Props) {
  return folds.map(({ title, fields }, index) => {
    const filled = fields.filter(({ key }) => (typed[key] ?? '') !== '').length
    return (
      <details key={title} className="form-fold" open={index === 0 || undefined}>
        <summary>
          {title}{' '}
          <span className="soft small">
            {filled} of {fields.length} filled in
          </span>
        </summary>
        <div className="form-fields">
          {heads[title]}
          {fields.map((field) => (
            <FieldControlOf
              key={field.key}
              field={field}
              value={typed[field.key] ?? ''}
              fault={faults[field.key]}
              onType={(value) => onType({ [field.key]: value })}
            />
          ))}
        </div>
      </details>
    )
  })
}
