import { csvLine } from '#contract/csv-line.ts'

/** A table with its head. */
export function csvText(
  head: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): string {
  return [head, ...rows].map(csvLine).join('')
}
