import { csvText } from '../csv-text.ts'
import type { AccountSection } from './account-row.ts'

const HEAD = ['section', 'what', 'value', 'unit', 'low_95', 'high_95', 'note']

/** The account as a table; figures are plain numbers. Cautions stand as rows of their own. */
export function accountCsv(sections: readonly AccountSection[]): string {
  const rows = sections.flatMap(({ title, rows: figures, cautions }) => [
    ...figures.map(({ what, value, unit, limits, note }) => [
      title,
      what,
      plain(value),
      unit,
      plain(limits?.low),
      plain(limits?.high),
      note ?? '',
    ]),
    ...cautions.map((caution) => [title, 'Caution', '', '', '', '', caution]),
  ])
  return csvText(HEAD, rows)
}

/** Ten digits are more than any of the figures holds. */
function plain(value: number | null | undefined): number | '' {
  return value === null || value === undefined ? '' : Number(value.toPrecision(10))
}
