/** What a spreadsheet would take for the start of a formula (OWASP, "CSV Injection"). */
const FORMULA_START = /^[=+\-@\t\r]/

/** A table by RFC 4180, with its head. */
export function csvText(
  head: readonly string[],
  rows: readonly (readonly (string | number)[])[],
): string {
  return [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')
}

/** Text that a spreadsheet would run as a formula is kept from it; numbers stay as they are. */
function cell(value: string | number): string {
  if (typeof value === 'number') return String(value)
  const harmless = FORMULA_START.test(value) ? `'${value}` : value
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}
