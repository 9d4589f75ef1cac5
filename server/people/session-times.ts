const HOUR_MS = 3_600_000

/**
 * A session ends when nobody used it for a shift, and after a month in any case. NIST SP 800-63B
 * asks for a new sign-in after 30 days at its first level and 12 hours at its second; the second is
 * taken for idle time, so that a crew signs in once a day.
 */
export const SESSION_IDLE_MS = 12 * HOUR_MS
export const SESSION_MOST_MS = 30 * 24 * HOUR_MS
export const SESSION_IDLE_S = SESSION_IDLE_MS / 1000

/** Use is noted no more often than this, so that reading does not become writing. */
const NOTE_USE_EVERY_MS = 10 * 60_000
export const TOKEN_USE_EVERY_MS = 60_000

interface Times {
  readonly startedAt: string
  readonly endsAt: string
}

export function hasSessionEnded({ startedAt, endsAt }: Times, nowMs: number): boolean {
  return nowMs >= Date.parse(endsAt) || nowMs >= Date.parse(startedAt) + SESSION_MOST_MS
}

/** The later end that use at this moment gives, or null where the kept one is near enough. */
export function laterEnd({ startedAt, endsAt }: Times, nowMs: number): string | null {
  const wanted = Math.min(nowMs + SESSION_IDLE_MS, Date.parse(startedAt) + SESSION_MOST_MS)
  const gainMs = wanted - Date.parse(endsAt)
  return gainMs < NOTE_USE_EVERY_MS ? null : new Date(wanted).toISOString()
}
