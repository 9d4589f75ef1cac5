interface Line {
  readonly level: string
  readonly time: string
  readonly msg?: string
  readonly fault?: { readonly message: string; readonly stack?: string }
  readonly [field: string]: unknown
}

/** Turns lines of JSON into lines for a person, and writes those. */
export function plainLines(write: (text: string) => void): { write(line: string): void } {
  return { write: (line) => write(`${plainLine(JSON.parse(line) as Line)}\n`) }
}

function plainLine({ level, time, msg = '', fault, ...fields }: Line): string {
  const rest = Object.entries(fields).map(([name, value]) => `${name}=${String(value)}`)
  const mark = level === 'info' ? '' : `${level.toUpperCase()} `
  const first = [`${time.slice(11, 19)} ${mark}${msg}`, ...rest].join('  ')
  return fault === undefined ? first : `${first}\n  ${fault.stack ?? fault.message}`
}
