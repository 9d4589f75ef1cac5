/** What a spreadsheet would take for the start of a formula (OWASP, "CSV Injection"). */
const FORMULA_START = /^[=+\-@\t\r]/

/** Quote, comma and line break make quotes needed (RFC 4180, section 2, rules 6 and 7). */
const NEEDS_QUOTES = /[",\r\n]/

/** One record of CSV after RFC 4180, with its line break. Null is an empty field. */
export function csvLine(values: readonly unknown[]): string {
  return `${values.map(csvField).join(',')}\r\n`
}

/** An apostrophe in front makes text of what would be run as a formula; numbers stay as they are. */
function csvField(value: unknown): string {
  if (value === null || value === undefined) return ''
  if (typeof value === 'number') return String(value)
  const text = String(value)
  const harmless = FORMULA_START.test(text) ? `'${text}` : text
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}
