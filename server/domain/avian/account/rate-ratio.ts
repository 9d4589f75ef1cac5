import { binomialLimits } from './binomial-limits.ts'
import { CONFIDENCE } from './poisson-limits.ts'

/** Events on some poles, and how long those were watched. */
export interface Watched {
  readonly events: number
  readonly poleYears: number
}

export interface RateRatio {
  /** Rate after over rate before; null where there was no event before. */
  readonly ratio: number | null
  readonly low: number
  /** Null where the data set no upper limit: no event before. */
  readonly high: number | null
}

/**
 * Rate after against rate before with its exact conditional limits: of all events, those after are
 * binomial with the share p = E₂R/(E₂R + E₁), so limits of p give limits of R. Null where either
 * was not watched, or where there is no event to compare.
 *
 * Source: J. Przyborowski and H. Wilenski, Homogeneity of results in testing samples from Poisson
 * series, Biometrika 31 (1940) 313–323; limits of p by Clopper and Pearson (1934).
 */
export function rateRatio(
  before: Watched,
  after: Watched,
  confidence: number = CONFIDENCE,
): RateRatio | null {
  const events = before.events + after.events
  if (!(before.poleYears > 0) || !(after.poleYears > 0) || events === 0) return null
  const { low, high } = binomialLimits(after.events, events, confidence)
  const exposure = before.poleYears / after.poleYears
  const ratioAt = (share: number) => (share / (1 - share)) * exposure
  return {
    ratio: before.events === 0 ? null : (after.events / before.events) * exposure,
    low: ratioAt(low),
    high: high === 1 ? null : ratioAt(high),
  }
}
