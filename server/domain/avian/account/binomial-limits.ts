import { bisect } from './bisect.ts'
import { CONFIDENCE, checkConfidence, checkCount, type Limits } from './poisson-limits.ts'

/**
 * Exact two-sided limits of a share of which `hits` of `trials` were seen.
 *
 * Source: C. J. Clopper and E. S. Pearson, The use of confidence or fiducial limits illustrated in
 * the case of the binomial, Biometrika 26 (1934) 404–413.
 *
 * @throws where the counts are no whole numbers, or there are more hits than trials
 */
export function binomialLimits(
  hits: number,
  trials: number,
  confidence: number = CONFIDENCE,
): Limits {
  checkCount(hits)
  checkCount(trials)
  checkConfidence(confidence)
  if (hits > trials) throw new Error(`Expected at most ${trials} hits, got ${hits}.`)
  const tail = (1 - confidence) / 2
  return {
    low: hits === 0 ? 0 : shareAt(hits - 1, trials, 1 - tail),
    high: hits === trials ? 1 : shareAt(hits, trials, tail),
  }
}

/** The share at which `hits` or fewer come with this chance. */
function shareAt(hits: number, trials: number, chance: number): number {
  return bisect((share) => chanceOfAtMost(hits, trials, share), chance, 0, 1)
}

function chanceOfAtMost(hits: number, trials: number, share: number): number {
  if (share === 0) return 1
  if (share === 1) return hits === trials ? 1 : 0
  const [logShare, logRest] = [Math.log(share), Math.log1p(-share)]
  let logWays = 0
  let sum = 0
  for (let k = 0; k <= hits; k += 1) {
    sum += Math.exp(logWays + k * logShare + (trials - k) * logRest)
    logWays += Math.log(trials - k) - Math.log(k + 1)
  }
  return Math.min(1, sum)
}
