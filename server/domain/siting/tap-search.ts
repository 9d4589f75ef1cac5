import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { REGULATOR_MAX_TAP } from '#domain/feeder/equipment.ts'
import { overHigh } from './limit-judge.ts'
import type { SiteRequest } from './site-request.ts'
import { type CaseBench, type CaseTrial, tryHeld } from './trial-bench.ts'

/** Rounds of the alternating search of two banks; it stops as soon as a round changes nothing. */
const MAX_ROUNDS = 8

/**
 * Best common position of each bank in one case, out of all 33: for `loss` the least loss with no
 * pole above the high limit, for `service` the fewest customers outside and then the least loss.
 * One bank is searched exhaustively; two take turns until neither improves.
 * Null where no position settles. Leaves the banks and the bench at the best.
 */
export function searchTaps(
  bench: CaseBench,
  banks: readonly RegulatorBank[],
  goal: SiteRequest['goal'],
): CaseTrial | null {
  for (const bank of banks) bank.taps.fill(0)
  let best = tryHeld(bench, banks)
  for (let round = 0; round < MAX_ROUNDS; round += 1) {
    const before = best
    for (const bank of banks) best = searchOne(bench, banks, bank, goal, best)
    if (banks.length === 1 || best === before) break
  }
  return best && tryHeld(bench, banks)
}

function searchOne(
  bench: CaseBench,
  banks: readonly RegulatorBank[],
  bank: RegulatorBank,
  goal: SiteRequest['goal'],
  start: CaseTrial | null,
): CaseTrial | null {
  let best = start
  let bestTap = bank.taps.find((tap) => tap !== 0) ?? 0
  for (let tap = -REGULATOR_MAX_TAP; tap <= REGULATOR_MAX_TAP; tap += 1) {
    setCommonTap(bank, tap)
    const tried = tryHeld(bench, banks)
    if (!tried || (best && !isBetter(tried, best, goal, bench.judge.highPu))) continue
    best = tried
    bestTap = tap
  }
  setCommonTap(bank, bestTap)
  return best
}

function setCommonTap(bank: RegulatorBank, tap: number): void {
  for (const phase of bank.settings.phases) bank.taps['ABC'.indexOf(phase)] = tap
}

function isBetter(a: CaseTrial, b: CaseTrial, goal: SiteRequest['goal'], highPu: number): boolean {
  const first = (trial: CaseTrial) =>
    goal === 'loss' ? overHigh(trial.highestPu, highPu) : trial.outside
  return first(a) === first(b) ? a.lossKw < b.lossKw : first(a) < first(b)
}
