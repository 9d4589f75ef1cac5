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

/** Below this a node is not in service but collapsed, per unit. */
const COLLAPSED_PU = 0.5

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
  if (options.taps === 'controlled') {
    const control = controlTaps(sweep, 'aimed')
    if (control.status === 'tap-hunting') {
      return notConverged(sweep, loadCase.id, 'tap-hunting', control.iterations, control.worstNode)
    }
    return control.status === 'settled'
      ? converged(sweep, loadCase, control.iterations)
      : notConverged(sweep, loadCase.id, reasonOf(sweep), control.iterations, control.worstNode)
  }
  const { isConverged, iterations, worstNode } = sweep.run()
  return isConverged
    ? converged(sweep, loadCase, iterations)
    : notConverged(sweep, loadCase.id, reasonOf(sweep), iterations, worstNode)
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

function reasonOf({ network, voltageV }: Sweep): NotConvergedReason {
  for (let i = 0; i < network.nodeCount; i++) {
    for (let phase = 0; phase < 3; phase++) {
      if ((((network.mask[i] as number) >> phase) & 1) === 0) continue
      const at = i * 6 + phase * 2
      const pu =
        Math.hypot(voltageV[at] as number, voltageV[at + 1] as number) /
        (network.nominalV[i] as number)
      if (!(pu > COLLAPSED_PU)) return 'voltage-collapse'
    }
  }
  return 'iteration-limit'
}

function notConverged(
  { network }: Sweep,
  caseId: string,
  reason: NotConvergedReason,
  iterations: number,
  worstNode: number,
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
      return `The load is more than the line can carry: voltage collapses, first at ${node}.`
    case 'iteration-limit':
      return `Voltages did not settle; the largest changes were at ${node}.`
    case 'tap-hunting':
      return `Regulators near ${node} keep tapping against each other; widen a bandwidth or a delay.`
  }
}
