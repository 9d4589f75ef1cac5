import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import type { SweepLimits } from '#domain/electrical/sweep-kernel.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import { overHigh } from './limit-judge.ts'
import type { SiteRequest } from './site-request.ts'
import { searchTaps } from './tap-search.ts'
import { type CaseBench, type CaseTrial, SEARCH_LIMITS, tryControlled } from './trial-bench.ts'

/** How one placement did over all cases. */
export interface Trial {
  /** Customers outside limits, added over the cases. */
  readonly outside: number
  /** How far the highest pole of any case stands above the high limit, per unit; 0 when it does not. */
  readonly overHighPu: number
  /** Mean loss, weighted by the hours of each case; of the first case where no hours are recorded. */
  readonly meanLossKw: number
  /** Least distance of any pole from a limit, per unit; negative outside. */
  readonly marginPu: number
  readonly cases: readonly SolvedCase[]
}

export interface SolvedCase extends CaseTrial {
  /** Positions of A, B, C of each added bank. */
  readonly taps: readonly Int8Array[]
}

/** Told after each case; true ends the trial early, as its outcome no longer matters. */
export type GiveUp = (outsideSoFar: number) => boolean

/**
 * Solves a placement in every case, taps as the request wants them. Null where a case does not
 * settle or the trial was given up.
 */
export function tryPlacement(
  benches: readonly CaseBench[],
  banks: readonly RegulatorBank[],
  request: SiteRequest,
  giveUp: GiveUp = () => false,
  limits: SweepLimits = SEARCH_LIMITS,
): Trial | null {
  const cases: SolvedCase[] = []
  let outside = 0
  for (const bench of benches) {
    const solved =
      request.taps === 'search' && banks.length > 0
        ? searchTaps(bench, banks, request.goal)
        : tryControlled(bench, banks, limits)
    if (!solved) return null
    outside += solved.outside
    cases.push({ ...solved, taps: banks.map((bank) => Int8Array.from(bank.taps)) })
    if (giveUp(outside)) return null
  }
  return trialOf(benches, cases)
}

export function trialOf(benches: readonly CaseBench[], cases: readonly SolvedCase[]): Trial {
  const { lowPu, highPu } = benches[0]?.judge ?? { lowPu: 0, highPu: Number.POSITIVE_INFINITY }
  const highest = Math.max(...cases.map((solved) => solved.highestPu))
  const lowest = Math.min(...cases.map((solved) => solved.lowestPu))
  return {
    outside: cases.reduce((sum, solved) => sum + solved.outside, 0),
    overHighPu: overHigh(highest, highPu),
    meanLossKw: meanLossKw(
      benches.map((bench) => bench.loadCase),
      cases.map((solved) => solved.lossKw),
    ),
    marginPu: Math.min(highPu - highest, lowest - lowPu),
    cases,
  }
}

export function totalHours(cases: readonly LoadCase[]): number {
  return cases.reduce((sum, loadCase) => sum + loadCase.hoursPerYear, 0)
}

/** Loss weighted by hours; that of the first case where no case has hours. */
export function meanLossKw(cases: readonly LoadCase[], lossKw: readonly number[]): number {
  const hours = totalHours(cases)
  if (hours === 0) return lossKw[0] ?? 0
  return (
    cases.reduce((sum, { hoursPerYear }, i) => sum + hoursPerYear * (lossKw[i] ?? 0), 0) / hours
  )
}
