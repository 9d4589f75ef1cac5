import { compileNetwork } from '../electrical/compile-network.ts'
import type { Network } from '../electrical/network.ts'
import { DEFAULT_LIMITS } from '../electrical/sweep.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { compileJudge } from '../siting/limit-judge.ts'
import { benchOf, tryControlled } from '../siting/trial-bench.ts'

/** A feeder held against its own limits in one case that could be solved. */
export interface CaseLimits {
  readonly loadCase: LoadCase
  /** Loads are counted where the feeder records no customers. */
  readonly customersOutside: number
  /** Per unit voltages, 3 per node of the network. */
  readonly pu: Float64Array
}

export interface FeederLimits {
  readonly network: Network
  /** Those that could be solved, by the id of their case. */
  readonly cases: ReadonlyMap<string, CaseLimits>
}

/** "1 customer is", "40 customers are"; loads where the feeder records no customers. */
export function customersAre({ loads }: Pick<Feeder, 'loads'>, count: number): string {
  const what = loads.some(({ customers }) => customers > 0) ? 'customer' : 'load'
  return `${count} ${what}${count === 1 ? ' is' : 's are'}`
}

/**
 * Every case with all banks following their controls, and customers counted as where banks are
 * sited. Null where the feeder has errors.
 */
export function feederLimits(feeder: Feeder): FeederLimits | null {
  const compiled = compileNetwork(feeder)
  if (compiled.status === 'rejected') return null
  const { network } = compiled
  const judge = compileJudge(feeder, network, feeder.header.limits)
  const cases = feeder.header.cases.flatMap((loadCase): [string, CaseLimits][] => {
    const bench = benchOf(network, judge, loadCase)
    const trial = tryControlled(bench, [], DEFAULT_LIMITS)
    if (!trial) return []
    return [[loadCase.id, { loadCase, customersOutside: trial.outside, pu: bench.pu }]]
  })
  return { network, cases: new Map(cases) }
}
