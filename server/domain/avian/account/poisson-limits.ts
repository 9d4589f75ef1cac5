import { bisect } from './bisect.ts'
import { logFactorial } from './log-factorial.ts'

export interface Limits {
  readonly low: number
  readonly high: number
}

/** Share of cases in which the limits hold the true value. */
export const CONFIDENCE = 0.95

/**
 * Exact two-sided limits of the mean of a Poisson count: the means at which so few, or so many,
 * events would come with a chance of (1 − confidence)/2 each.
 *
 * Source: F. Garwood, Fiducial limits for the Poisson distribution, Biometrika 28 (1936) 437–442.
 *
 * @param count events, a whole number
 * @throws where count is no whole number, or confidence not between 0 and 1
 */
export function poissonLimits(count: number, confidence: number = CONFIDENCE): Limits {
  checkCount(count)
  checkConfidence(confidence)
  const tail = (1 - confidence) / 2
  return {
    low: count === 0 ? 0 : meanAt(count - 1, 1 - tail),
    high: meanAt(count, tail),
  }
}

/** The mean above which the count would be too low to believe, all of the doubt on that side. */
export function poissonUpperLimit(count: number, confidence: number = CONFIDENCE): number {
  checkCount(count)
  checkConfidence(confidence)
  return meanAt(count, 1 - confidence)
}

/** The mean at which `count` or fewer events come with this chance. */
function meanAt(count: number, chance: number): number {
  let above = count + 1
  while (chanceOfAtMost(count, above) > chance) above *= 2
  return bisect((mean) => chanceOfAtMost(count, mean), chance, 0, above)
}

/** Chance of `count` or fewer events: the terms from the last one down, each by ratio to the next. */
function chanceOfAtMost(count: number, mean: number): number {
  if (mean === 0) return 1
  const last = -mean + count * Math.log(mean) - logFactorial(count)
  let [share, sum] = [1, 1]
  for (let k = count; k > 0; k -= 1) {
    share *= k / mean
    sum += share
  }
  return sum === Number.POSITIVE_INFINITY ? 1 : Math.min(1, Math.exp(last + Math.log(sum)))
}

export function checkCount(count: number): void {
  if (Number.isSafeInteger(count) && count >= 0) return
  throw new Error(`Expected a whole number of events, 0 or more, got ${count}.`)
}

export function checkConfidence(confidence: number): void {
  if (confidence > 0 && confidence < 1) return
  throw new Error(`Expected a confidence between 0 and 1, got ${confidence}.`)
}
