import type { Fields } from '../../record/merge-fields.ts'
import { type RecordField, shownValue } from '../../record/record-fields.ts'

interface Props {
  readonly fields: readonly RecordField[]
  readonly values: Fields
}

/** What is filled in, by its name; the rest is counted. */
export function FilledFields({ fields, values }: Props) {
  const filled = fields.flatMap((field) => {
    const shown = shownValue(field, values[field.key])
    return shown === '' ? [] : [{ key: field.key, label: field.label, shown }]
  })
  return (
    <>
      <dl className="filled-fields">
        {filled.map(({ key, label, shown }) => (
          <div key={key}>
            <dt>{label}</dt>
            <dd>{shown}</dd>
          </div>
        ))}
      </dl>
      <p className="soft small">
        {filled.length} of {fields.length} fields are filled in.
      </p>
    </>
  )
}
