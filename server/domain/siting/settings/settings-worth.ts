import type { LoadCase } from '#domain/feeder/header.ts'
import type { SiteRequest } from '../site-request.ts'
import { meanLossKw } from '../trial.ts'
import type { SettingsInCase } from './settings-verdict.ts'

/**
 * Volts of margin that other settings must win to be worth leaving plainer ones: one step of the
 * bank, since less is within the play of its control (common practice, no source).
 */
export const WORTH_MARGIN_V = 0.75
/** Share of the mean loss that they must save, where nothing else differs (an assumption). */
export const WORTH_LOSS_SHARE = 0.02
/** Margins that differ by less are the same. */
const SAME_MARGIN_V = 0.1

/** What settings give over all cases. */
export interface SettingsScore {
  /** Customers outside limits, added over the cases. */
  readonly outside: number
  readonly outsideAtEdges: number
  /** Least margin of any case. */
  readonly marginV: number
  /** Margin of the cases weighted by their hours. */
  readonly meanMarginV: number
  readonly meanLossKw: number
}

export function scoreOf(
  cases: readonly LoadCase[],
  inCases: readonly SettingsInCase[],
): SettingsScore {
  const sum = (of: (inCase: SettingsInCase) => number) =>
    inCases.reduce((total, inCase) => total + of(inCase), 0)
  return {
    outside: sum(({ outside }) => outside),
    outsideAtEdges: sum(({ outsideAtEdges }) => outsideAtEdges),
    marginV: Math.min(...inCases.map(({ marginV }) => marginV)),
    meanMarginV: meanLossKw(
      cases,
      inCases.map(({ marginV }) => marginV),
    ),
    meanLossKw: meanLossKw(
      cases,
      inCases.map(({ lossKw }) => lossKw),
    ),
  }
}

/**
 * Whether `other` beats `present` by enough: fewer customers outside, then fewer at the edges of the
 * band, then margin, then loss; with the goal of least loss, loss before margin.
 *
 * @param isAsPlain True where `other` is as plain as `present`, so that any gain counts.
 */
export function isBetter(
  other: SettingsScore,
  present: SettingsScore,
  goal: SiteRequest['goal'],
  isAsPlain: boolean,
): boolean {
  if (other.outside !== present.outside) return other.outside < present.outside
  if (other.outsideAtEdges !== present.outsideAtEdges) {
    return other.outsideAtEdges < present.outsideAtEdges
  }
  const leastV = isAsPlain ? SAME_MARGIN_V : WORTH_MARGIN_V
  const leastKw = isAsPlain ? 0 : WORTH_LOSS_SHARE * present.meanLossKw
  const margin = byMargin(other, present, leastV)
  const savedKw = present.meanLossKw - other.meanLossKw
  const loss = savedKw > leastKw ? 1 : savedKw < -leastKw ? -1 : 0
  const [first, second] = goal === 'loss' ? [loss, margin] : [margin, loss]
  return first !== 0 ? first > 0 : second > 0
}

/** 1 where the least margin is better by enough or, with that no worse, the mean one is. */
function byMargin(other: SettingsScore, present: SettingsScore, leastV: number): -1 | 0 | 1 {
  const least = other.marginV - present.marginV
  if (least < -SAME_MARGIN_V) return -1
  if (least >= leastV) return 1
  const mean = other.meanMarginV - present.meanMarginV
  return mean >= leastV ? 1 : mean <= -leastV ? -1 : 0
}
