/** What is known of how many of the dead birds get found; each is optional. */
export interface Detection {
  readonly persistence?: {
    /** Mean days until a carcass is gone. */
    readonly meanDays: number
    /** Days between searches. */
    readonly intervalDays: number
  }
  /** Share of the carcasses present that a search finds, 0 to 1. */
  readonly searchEfficiency?: number
  /** Share of the poles that are searched, 0 to 1. */
  readonly shareSearched?: number
}

export interface DetectionFactors {
  /** Null where it was not given: it then counts as 1. */
  readonly persistence: number | null
  readonly searchEfficiency: number | null
  readonly shareSearched: number | null
  /** Share of the true events that is found: the product of those given. */
  readonly detected: number
}

/** Mean days of persistence of carcasses of which half are gone after so many days. */
export function meanDaysOfHalfLife(halfLifeDays: number): number {
  return halfLifeDays / Math.LN2
}

/**
 * Share of the carcasses still there at the next search, where birds die evenly over the interval I
 * and carcasses go at a constant rate with mean persistence t: (t/I)·(1 − exp(−I/t)).
 *
 * Source: the mean of exp(−x/t) over 0 to I, computed; used so in fatality estimators since
 * W. P. Erickson and others (1998), from memory.
 */
export function sharePersisting(meanDays: number, intervalDays: number): number {
  if (intervalDays === 0) return 1
  return (meanDays / intervalDays) * -Math.expm1(-intervalDays / meanDays)
}

export function detectionFactors(detection: Detection): DetectionFactors {
  const { persistence, searchEfficiency = null, shareSearched = null } = detection
  const persisting = persistence
    ? sharePersisting(persistence.meanDays, persistence.intervalDays)
    : null
  return {
    persistence: persisting,
    searchEfficiency,
    shareSearched,
    detected: (persisting ?? 1) * (searchEfficiency ?? 1) * (shareSearched ?? 1),
  }
}
