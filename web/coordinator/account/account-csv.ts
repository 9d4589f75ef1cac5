import type { AccountSection } from './account-row.ts'

const HEAD = ['section', 'what', 'value', 'unit', 'low_95', 'high_95', 'note']

/** The account as a table by RFC 4180; figures are plain numbers. Cautions stand as rows of their own. */
export function accountCsv(sections: readonly AccountSection[]): string {
  const rows = sections.flatMap(({ title, rows: figures, cautions }) => [
    ...figures.map(({ what, value, unit, limits, note }) => [
      title,
      what,
      numberText(value),
      unit,
      numberText(limits?.low),
      numberText(limits?.high),
      note ?? '',
    ]),
    ...cautions.map((caution) => [title, 'Caution', '', '', '', '', caution]),
  ])
  return `${[HEAD, ...rows].map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`
}

function numberText(value: number | null | undefined): string {
  return value === null || value === undefined ? '' : String(Number(value.toPrecision(10)))
}

/** A text that a spreadsheet would run as a formula is kept from it. */
function cell(text: string): string {
  const harmless = /^[=+\-@\t]/.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}
