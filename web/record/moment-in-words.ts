const FORMAT = new Intl.DateTimeFormat('en-CA', {
  year: 'numeric',
  month: '2-digit',
  day: '2-digit',
  hour: '2-digit',
  minute: '2-digit',
  hour12: false,
})

/** An instant in the person's own time zone: "2026-11-25, 14:03". */
export function momentInWords(instant: string): string {
  return FORMAT.format(new Date(instant))
}

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const DAY_MS = 24 * HOUR_MS
/** The coarsest unit that still counts at least one, up to a month; after that the date says it. */
const STEPS = [
  ['day', DAY_MS],
  ['hour', HOUR_MS],
  ['minute', MINUTE_MS],
] as const
const RELATIVE = new Intl.RelativeTimeFormat('en', { numeric: 'always' })

/**
 * How long ago: "just now", "12 minutes ago", "3 days ago"; null from a month on. A clock of the
 * device that goes slow puts the instant into the future; that too is "just now".
 *
 * @param nowMs milliseconds since 1970
 */
export function agoInWords(instant: string, nowMs: number): string | null {
  const passedMs = nowMs - Date.parse(instant)
  if (passedMs < MINUTE_MS) return 'just now'
  if (passedMs >= 31 * DAY_MS) return null
  const [unit, unitMs] = STEPS.find(([, ms]) => passedMs >= ms) ?? ['minute', MINUTE_MS]
  return RELATIVE.format(-Math.floor(passedMs / unitMs), unit)
}

/** Whether the device said another time than the server, by more than clocks commonly differ. */
export function isEnteredEarlier(deviceAt: string | null, at: string): deviceAt is string {
  return deviceAt !== null && Math.abs(Date.parse(at) - Date.parse(deviceAt)) > MINUTE_MS
}
