import { type Complex, complex, divide } from '#domain/units/complex.ts'
import { PHASES, type Phase, phasesOfMask } from '#domain/units/phases.ts'
import { branchPower, nearVoltage } from '../electrical/branch-power.ts'
import { compileNetwork } from '../electrical/compile-network.ts'
import type { CompiledRegulator, Network } from '../electrical/network.ts'
import { bankOfRegulator, type RegulatorBank } from '../electrical/regulator-bank.ts'
import { controlTaps } from '../electrical/regulator-control.ts'
import type { ByPhase } from '../electrical/solution.ts'
import { Sweep } from '../electrical/sweep.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { LoadCase } from '../feeder/header.ts'
import { feederWithBank } from './feeder-with-bank.ts'

/** One unit of the bank as solved: phasors to neutral, volts and amperes. */
export interface SolvedUnit {
  readonly tap: number
  readonly source: Complex
  readonly load: Complex
  /** Out of the load side, away from the source. */
  readonly current: Complex
}

export interface NotSolved {
  readonly status: 'not solved'
  readonly what: string
}

export type BankSolution =
  | { readonly status: 'solved'; readonly units: ByPhase<SolvedUnit> }
  | NotSolved

/** A feeder with one bank in it, compiled once and solved as often as is asked. */
export interface BankBench {
  readonly status: 'ready'
  /** Of the bank, those on which power reaches it. */
  readonly phases: readonly Phase[]
  /**
   * Holds the bank at the given positions, neutral where none is given, or lets it follow its
   * control. All other banks follow theirs.
   */
  readonly solve: (loadCase: LoadCase, taps: ByPhase<number> | 'controlled') => BankSolution
}

/** @param replacedId The bank that stands there now, where it goes. */
export function bankBench(
  feeder: Feeder,
  regulator: Regulator,
  replacedId?: string,
): BankBench | NotSolved {
  const replaced = replacedId === undefined ? [] : [replacedId]
  const compiled = compileNetwork(feederWithBank(feeder, regulator, replaced))
  if (compiled.status === 'rejected') {
    const [first] = compiled.findings.filter(({ severity }) => severity === 'error')
    return notSolved(`The feeder cannot be solved: ${first?.what ?? 'it has errors.'}`)
  }
  const { network } = compiled
  const own = network.regulators.find(({ id }) => id === regulator.id)
  const phases = own ? arriving(network, own) : []
  if (!own || phases.length === 0) {
    return notSolved(`No power reaches span ${regulator.span}, on which the bank stands.`)
  }
  const sweep = new Sweep(network)
  return {
    status: 'ready',
    phases,
    solve: (loadCase, taps) => solveWith({ sweep, own, phases }, loadCase, taps),
  }
}

/** Phases of the bank that bring voltage to it. */
function arriving({ mask }: Network, { branch, settings }: CompiledRegulator): Phase[] {
  const there = phasesOfMask(mask[branch] ?? 0)
  return settings.phases.filter((phase) => there.includes(phase))
}

interface Setup {
  readonly sweep: Sweep
  readonly own: CompiledRegulator
  readonly phases: readonly Phase[]
}

function solveWith(
  { sweep, own, phases }: Setup,
  loadCase: LoadCase,
  taps: ByPhase<number> | 'controlled',
): BankSolution {
  const bank = taps === 'controlled' ? bankOfRegulator(own, 'neutral') : heldBank(own, taps)
  sweep.setCase(loadCase)
  sweep.setBanks(banksWith(sweep.network, bank))
  sweep.startFlat()
  const { status, last } = controlTaps(sweep, 'aimed')
  switch (status) {
    case 'settled':
      return { status: 'solved', units: unitsOf(sweep, bank, phases) }
    case 'not-converged':
      return notSolved(
        `The power flow does not converge in ${loadCase.name}; worst at ${sweep.network.nodeIds[last.worstNode] ?? 'an unknown node'}.`,
      )
    case 'tap-hunting':
      return notSolved(`Banks keep tapping against each other in ${loadCase.name}.`)
  }
}

/** A control with a band without end never moves. */
function heldBank(own: CompiledRegulator, taps: ByPhase<number>): RegulatorBank {
  const settings = { ...own.settings, bandwidthV: Number.POSITIVE_INFINITY }
  const bank = bankOfRegulator({ ...own, settings }, 'neutral')
  for (const phase of settings.phases) bank.taps[PHASES.indexOf(phase)] = taps[phase] ?? 0
  return bank
}

function banksWith(network: Network, bank: RegulatorBank): RegulatorBank[] {
  return network.regulators.map((other) =>
    other.id === bank.id ? bank : bankOfRegulator(other, 'neutral'),
  )
}

function unitsOf(
  sweep: Sweep,
  { branch, taps }: RegulatorBank,
  phases: readonly Phase[],
): ByPhase<SolvedUnit> {
  const { nearCurrentA } = branchPower(sweep, branch)
  const load = nearVoltage(sweep, branch)
  const units: ByPhase<SolvedUnit> = {}
  for (const phase of phases) {
    const index = PHASES.indexOf(phase)
    const gain = sweep.state.gain[branch * 3 + index] ?? Number.NaN
    const loadV = pair(load, index)
    units[phase] = {
      tap: taps[index] ?? 0,
      source: divide(loadV, complex(gain)),
      load: loadV,
      current: pair(nearCurrentA, index),
    }
  }
  return units
}

function pair(values: Float64Array, index: number): Complex {
  return complex(values[index * 2] ?? Number.NaN, values[index * 2 + 1] ?? Number.NaN)
}

function notSolved(what: string): NotSolved {
  return { status: 'not solved', what }
}
