import { useState } from 'react'
import { Field } from '../ui/field.tsx'

interface Props {
  readonly label: string
  readonly unit?: string
  readonly hint?: string
  /** In SI or as it is kept; null where nothing is entered. */
  readonly value: number | null
  /** Kept value of one shown unit: 0.0254 for inches of metres. */
  readonly per?: number
  readonly least?: number
  readonly most?: number
  readonly isWhole?: boolean
  /** An empty field is an answer: what the program ships stands. */
  readonly mayBeEmpty?: boolean
  /** Stands in the empty field: the shipped figure. */
  readonly shipped?: number
  readonly onChange: (value: number | null) => void
}

/** A figure in the unit of the reader. What cannot be read stays as typed, with what is wrong. */
export function FigureField(props: Props) {
  const { label, unit, hint, value, per = 1, mayBeEmpty = false, shipped, onChange } = props
  const [typed, setTyped] = useState<string | null>(null)
  const fault = typed === null ? null : faultOf(typed, props)
  return (
    <Field label={label} unit={unit} hint={hint} fault={fault}>
      {(control) => (
        <input
          className="input"
          type="text"
          inputMode="decimal"
          value={typed ?? shownText(value, per)}
          placeholder={shipped === undefined ? undefined : shownText(shipped, per)}
          onChange={({ target }) => {
            setTyped(target.value)
            if (faultOf(target.value, props) !== null) return
            const isEmpty = target.value.trim() === ''
            onChange(isEmpty && mayBeEmpty ? null : Number(target.value) * per)
          }}
          onBlur={() => {
            if (fault === null) setTyped(null)
          }}
          {...control}
        />
      )}
    </Field>
  )
}

/** At most four decimals, so that 1.524 m reads 60 in. */
export function shownText(value: number | null, per = 1): string {
  return value === null ? '' : String(Number((value / per).toFixed(4)))
}

type Limits = Pick<Props, 'per' | 'least' | 'most' | 'isWhole' | 'mayBeEmpty'>

/** What is wrong with the text and what to do; null where it can be kept. */
export function faultOf(typed: string, limits: Limits): string | null {
  const { per = 1, least = 0, most, isWhole = false, mayBeEmpty = false } = limits
  if (typed.trim() === '') return mayBeEmpty ? null : 'Give a figure.'
  const shown = Number(typed)
  if (!Number.isFinite(shown)) return 'Write it as a plain number, such as 12.5.'
  if (isWhole && !Number.isInteger(shown)) return 'Give a whole number.'
  if (shown * per < least) return `Give at least ${shownText(least, per)}.`
  if (most !== undefined && shown * per > most) return `Give at most ${shownText(most, per)}.`
  return null
}
