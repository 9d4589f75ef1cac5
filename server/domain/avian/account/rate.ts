import { CONFIDENCE, type Limits, poissonLimits, poissonUpperLimit } from './poisson-limits.ts'

/** Days of a year, on average over leap years of the Julian calendar. */
export const DAYS_PER_YEAR = 365.25
/** Rates are told per so many poles watched for a year. */
export const POLES_OF_RATE = 1000

export interface Rate {
  readonly events: number
  readonly poleYears: number
  /** Events per 1000 pole-years. */
  readonly per1000: number
  readonly limits: Limits
  /** With all of the doubt on the upper side: what zero events still allow. */
  readonly upperOneSided: number
}

/** @returns poles watched for so many days, in pole-years */
export function poleYearsOf(poles: number, days: number): number {
  return (poles * days) / DAYS_PER_YEAR
}

/**
 * Events per 1000 pole-years with exact limits; null where nothing was watched.
 *
 * @param detected share of the true events that was found, 0 to 1; the limits are divided by it too,
 *   so they hold the chance in the finds and not the doubt about that share
 */
export function rateOf(
  events: number,
  poleYears: number,
  detected = 1,
  confidence: number = CONFIDENCE,
): Rate | null {
  if (!(poleYears > 0) || !(detected > 0)) return null
  const scaled = (count: number) => (POLES_OF_RATE * count) / (poleYears * detected)
  const { low, high } = poissonLimits(events, confidence)
  return {
    events,
    poleYears,
    per1000: scaled(events),
    limits: { low: scaled(low), high: scaled(high) },
    upperOneSided: scaled(poissonUpperLimit(events, confidence)),
  }
}
