import type { Working } from '../../state/working.ts'

/** One figure of the yearly account, for the desk, the printed report and the table alike. */
export interface AccountRow {
  readonly what: string
  /** Null where none can be told; the note says why. */
  readonly value: number | null
  readonly decimals?: number
  readonly unit: string
  /** 95 %, two-sided; `high` is null where the figures set no upper limit. */
  readonly limits?: { readonly low: number; readonly high: number | null }
  readonly note?: string
  readonly working?: Working
}

export interface AccountSection {
  readonly title: string
  readonly rows: readonly AccountRow[]
  /** What the figures of the section do not say. */
  readonly cautions: readonly string[]
}

/** "1.25", "1,204", "$1,200"; "not known" where there is no figure. */
export function valueInWords({ value, decimals = 0, unit }: AccountRow): string {
  if (value === null) return 'not known'
  const text = figureText(value, decimals)
  return unit === 'USD' ? `$${text}` : text
}

/** "0.03 to 5.57"; empty where a figure has no limits. */
export function limitsInWords({ limits, decimals = 0 }: AccountRow): string {
  if (!limits) return ''
  const low = figureText(limits.low, decimals)
  return limits.high === null
    ? `${low} and more, without an upper limit`
    : `${low} to ${figureText(limits.high, decimals)}`
}

/** Unit beside the value, "1 pole" and "2 poles"; money carries its sign instead. */
export function unitBeside({ value, unit }: AccountRow): string {
  if (value === null || unit === 'USD') return ''
  return value === 1 ? unit.replace(/s$/, '') : unit
}

function figureText(value: number, decimals: number): string {
  return value.toLocaleString('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  })
}
