import type { Fields } from '../../record/merge-fields.ts'
import type { RecordField } from '../../record/record-fields.ts'

/** One field of a form as a person fills it in; every value is kept as text. */
export interface FormField extends RecordField {
  readonly control: 'line' | 'words' | 'date' | 'time' | 'number' | 'choice' | 'yes or no'
  readonly options?: readonly string[]
  readonly hint?: string
  readonly unit?: string
  readonly suggestions?: readonly string[]
  /** What to do where it is missing or not understood. */
  readonly fault?: string
}

export interface FieldFold {
  readonly title: string
  readonly fields: readonly FormField[]
}

/** Members for the body: blanks left out, numbers and yes or no as such. */
export function membersOf(fields: readonly FormField[], typed: Fields): Record<string, unknown> {
  return Object.fromEntries(
    fields.flatMap(({ key, control }) => {
      const text = (typed[key] ?? '').trim()
      return text === '' ? [] : [[key, typedValue(control, text)]]
    }),
  )
}

function typedValue(control: FormField['control'], text: string): unknown {
  if (control === 'number') return Number(text.replace(',', '.'))
  return control === 'yes or no' ? text === 'yes' : text
}

/** The text of each field of a record. */
export function textOf(
  fields: readonly FormField[],
  record: Readonly<Record<string, unknown>>,
): Record<string, string> {
  return Object.fromEntries(
    fields.map(({ key, control }) => {
      const value = record[key]
      if (value === undefined || value === null) return [key, '']
      if (control === 'yes or no') return [key, value === true ? 'yes' : 'no']
      return [key, String(value)]
    }),
  )
}
