import { PHASES } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { nodeVoltages, regulatorStates, spanFlows, totals } from './case-report.ts'
import { compileNetwork } from './compile-network.ts'
import type { Network } from './network.ts'
import { bankOfRegulator, type RegulatorBank } from './regulator-bank.ts'
import { controlTaps } from './regulator-control.ts'
import type { ByPhase, CaseSolution, NotConvergedReason } from './solution.ts'
import { Sweep } from './sweep.ts'
import type { SweepOutcome } from './sweep-kernel.ts'

export interface SolveOptions {
  /** All cases of the feeder when left out. Throws for an id that the feeder does not have. */
  readonly caseIds?: readonly string[]
  /**
   * `fixed` holds the recorded positions; `controlled` lets every bank follow its control,
   * aimed from neutral.
   */
  readonly taps: 'fixed' | 'controlled'
  /** Banks that do not stand yet. */
  readonly extraBanks?: readonly Regulator[]
  /** Replaces recorded positions, by regulator id. */
  readonly fixedTaps?: Readonly<Record<string, ByPhase<number>>>
}

/** Still moving by this much at the last iteration is not slowness but collapse, per unit. */
const RESTLESS_PU = 1e-3

/** Power flow of the wanted cases, one answer each; a feeder that cannot be solved gives one `rejected`. */
export function solveFeeder(feeder: Feeder, options: SolveOptions): CaseSolution[] {
  const extra = options.extraBanks ?? []
  const compiled = compileNetwork(
    extra.length > 0 ? { ...feeder, equipment: [...feeder.equipment, ...extra] } : feeder,
  )
  if (compiled.status === 'rejected') return [compiled]
  const sweep = new Sweep(compiled.network)
  return casesOf(feeder, options.caseIds).map((loadCase) => solveCase(sweep, loadCase, options))
}

function casesOf(feeder: Feeder, caseIds: readonly string[] | undefined): LoadCase[] {
  if (!caseIds) return feeder.header.cases
  return caseIds.map((id) => {
    const found = feeder.header.cases.find((loadCase) => loadCase.id === id)
    if (!found) throw new Error(`Feeder "${feeder.header.id}" has no case "${id}".`)
    return found
  })
}

function solveCase(sweep: Sweep, loadCase: LoadCase, options: SolveOptions): CaseSolution {
  sweep.setCase(loadCase)
  sweep.setBanks(banksFor(sweep.network, options))
  sweep.startFlat()
  if (options.taps === 'fixed') {
    const outcome = sweep.run()
    return outcome.isConverged
      ? converged(sweep, loadCase, outcome.iterations)
      : notConverged(sweep, loadCase.id, reasonOf(outcome), outcome)
  }
  const { status, iterations, last } = controlTaps(sweep, 'aimed')
  if (status === 'settled') return converged(sweep, loadCase, iterations)
  const reason = status === 'tap-hunting' ? status : reasonOf(last)
  return notConverged(sweep, loadCase.id, reason, { ...last, iterations })
}

function banksFor(network: Network, { taps, fixedTaps }: SolveOptions): RegulatorBank[] {
  return network.regulators.map((regulator) => {
    const bank = bankOfRegulator(regulator, taps === 'fixed' ? 'recorded' : 'neutral')
    const wanted = fixedTaps?.[regulator.id]
    for (const phase of regulator.settings.phases) {
      const tap = wanted?.[phase]
      if (tap !== undefined) bank.taps[PHASES.indexOf(phase)] = tap
    }
    return bank
  })
}

function converged(sweep: Sweep, loadCase: LoadCase, iterations: number): CaseSolution {
  return {
    status: 'converged',
    caseId: loadCase.id,
    iterations,
    nodes: nodeVoltages(sweep),
    spans: spanFlows(sweep),
    regulators: regulatorStates(sweep),
    totals: totals(sweep, loadCase),
  }
}

/** Beyond the greatest load that a line can carry the sweep never comes to rest. */
function reasonOf({ lastChangePu }: SweepOutcome): NotConvergedReason {
  return lastChangePu > RESTLESS_PU || Number.isNaN(lastChangePu)
    ? 'voltage-collapse'
    : 'iteration-limit'
}

function notConverged(
  { network }: Sweep,
  caseId: string,
  reason: NotConvergedReason,
  { iterations, worstNode }: SweepOutcome,
): CaseSolution {
  const worstNodeId = network.nodeIds[worstNode] ?? ''
  return {
    status: 'not-converged',
    caseId,
    iterations,
    reason,
    worstNodeId,
    what: words(reason, worstNodeId),
  }
}

function words(reason: NotConvergedReason, node: string): string {
  switch (reason) {
    case 'voltage-collapse':
      return `The load is more than the line can carry: voltage collapses, worst at ${node}.`
    case 'iteration-limit':
      return `Voltages did not settle; the largest changes were at ${node}.`
    case 'tap-hunting':
      return `Regulators near ${node} keep tapping against each other; widen a bandwidth or a delay.`
  }
}
