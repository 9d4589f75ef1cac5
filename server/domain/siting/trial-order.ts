import type { SiteRequest } from './site-request.ts'
import type { Trial } from './trial.ts'

/** What a placement costs besides its losses, and what a mean kilowatt lost is worth today. */
export interface Worth {
  readonly bankUsd: number
  readonly usdPerMeanKw: number
}

/** The figures that rank a placement, most important first; smaller is better. */
export type RankKey = readonly [first: number, second: number, third: number, fourth: number]

/**
 * `service`: customers outside, then present worth of losses and banks, then loss, then margin.
 * `loss`: volts above the high limit, then loss, then bank cost, then margin.
 */
export function rankKey(trial: Trial, goal: SiteRequest['goal'], worth: Worth): RankKey {
  const usd = worth.bankUsd + worth.usdPerMeanKw * trial.meanLossKw
  return goal === 'service'
    ? [trial.outside, usd, trial.meanLossKw, -trial.marginPu]
    : [trial.overHighPu, trial.meanLossKw, worth.bankUsd, -trial.marginPu]
}

/** Negative when `a` ranks before `b`. */
export function compareKeys(a: RankKey, b: RankKey): number {
  for (let i = 0; i < a.length; i += 1) {
    const [mine, other] = [a[i] ?? 0, b[i] ?? 0]
    if (mine !== other) return mine < other ? -1 : 1
  }
  return 0
}
