import type { Network } from '#domain/electrical/network.ts'
import { bankOfRegulator, type RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { type ControlMode, controlTaps } from '#domain/electrical/regulator-control.ts'
import { Sweep } from '#domain/electrical/sweep.ts'
import type { SweepLimits } from '#domain/electrical/sweep-kernel.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import { fillPu, judgeLimits, type LimitJudge, type LimitVerdict } from './limit-judge.ts'
import { lineLossW } from './line-loss.ts'

/** Close enough to tell placements apart: 0.001 V on the 120 base. */
export const SEARCH_LIMITS: SweepLimits = { tolerancePu: 1e-5, maxIterations: 200 }

/** One case ready to be solved again and again with different banks, each run warm from the last. */
export interface CaseBench {
  readonly loadCase: LoadCase
  readonly sweep: Sweep
  readonly judge: LimitJudge
  /** Banks that stand today; each trial starts them at neutral. */
  readonly standing: readonly RegulatorBank[]
  /** Per unit voltages of the last solution, 3 per node. */
  readonly pu: Float64Array
}

export interface CaseTrial extends LimitVerdict {
  readonly lossKw: number
}

export function benchOf(network: Network, judge: LimitJudge, loadCase: LoadCase): CaseBench {
  const sweep = new Sweep(network)
  sweep.setCase(loadCase)
  sweep.startFlat()
  return {
    loadCase,
    sweep,
    judge,
    standing: network.regulators.map((regulator) => bankOfRegulator(regulator, 'neutral')),
    pu: new Float64Array(network.nodeCount * 3),
  }
}

/**
 * Solves the case with banks added, all taps controlled from neutral.
 * Null where the line cannot carry the load or the taps never settle; the bench stays usable.
 */
export function tryControlled(
  bench: CaseBench,
  added: readonly RegulatorBank[],
  limits: SweepLimits = SEARCH_LIMITS,
  mode: ControlMode = 'aimed',
): CaseTrial | null {
  for (const bank of bench.standing) bank.taps.fill(0)
  for (const bank of added) bank.taps.fill(0)
  bench.sweep.setBanks([...bench.standing, ...added])
  return judged(bench, controlTaps(bench.sweep, mode, limits).status === 'settled')
}

/** As `tryControlled`, but the added banks stay at the positions that they have. */
export function tryHeld(bench: CaseBench, added: readonly RegulatorBank[]): CaseTrial | null {
  for (const bank of bench.standing) bank.taps.fill(0)
  bench.sweep.setBanks([...bench.standing, ...added.map(held)])
  return judged(bench, controlTaps(bench.sweep, 'aimed', SEARCH_LIMITS).status === 'settled')
}

/** A bank whose control has nothing to do: its band has no edges. */
function held(bank: RegulatorBank): RegulatorBank {
  return { ...bank, settings: { ...bank.settings, bandwidthV: Number.POSITIVE_INFINITY } }
}

function judged(bench: CaseBench, isSettled: boolean): CaseTrial | null {
  if (!isSettled) {
    bench.sweep.startFlat()
    return null
  }
  fillPu(bench.judge, bench.sweep.voltageV, bench.pu)
  return { ...judgeLimits(bench.judge, bench.pu), lossKw: lineLossW(bench.sweep) / 1000 }
}
