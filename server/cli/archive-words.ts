import type { Streams } from './command.ts'

/** "14 tables with 2300 rows". */
export function tablesInWords(tables: readonly { readonly rows: number }[]): string {
  const rows = tables.reduce((sum, table) => sum + table.rows, 0)
  return `${counted(tables.length, 'table')} with ${counted(rows, 'row')}`
}

export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}

/** One line for each attached file that the record names and that is nowhere. */
export function tellMissing(missing: readonly string[], streams: Streams): void {
  for (const sha256 of missing) streams.err(`missing: attached file ${sha256}`)
  if (missing.length > 0) {
    streams.err(
      `${counted(missing.length, 'attached file')} could not be found; all else is there.`,
    )
  }
}
