export interface Column {
  readonly title: string
  /** Words stand left, figures right. */
  readonly align: 'left' | 'right'
}

/** Plain text table, two spaces between columns, titles in the first line. */
export function textTable(
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): string {
  const widths = columns.map(({ title }, index) =>
    rows.reduce((width, row) => Math.max(width, row[index]?.length ?? 0), title.length),
  )
  const line = (cells: readonly string[]) =>
    columns
      .map(({ align }, index) => {
        const cell = cells[index] ?? ''
        const width = widths[index] ?? 0
        return align === 'left' ? cell.padEnd(width) : cell.padStart(width)
      })
      .join('  ')
      .trimEnd()
  return [line(columns.map(({ title }) => title)), ...rows.map(line)].join('\n')
}

export const left = (title: string): Column => ({ title, align: 'left' })
export const right = (title: string): Column => ({ title, align: 'right' })
