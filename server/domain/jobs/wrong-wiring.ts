import { type Complex, conjugate, magnitude, multiply, scale } from '#domain/units/complex.ts'
import type { Phase } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { ByPhase } from '../electrical/solution.ts'
import type { Regulator } from '../feeder/equipment.ts'
import type { LoadCase } from '../feeder/header.ts'
import type { BankBench, NotSolved, SolvedUnit } from './bank-bench.ts'
import { STEP_PU } from './bypass-current.ts'
import { relayVolts } from './relay-volts.ts'

/** How the units of a bank are connected: what a position does to the line, and what a control reads. */
export interface Wiring {
  /** Tap of a rightly connected unit that would do the same, for the position that the indicator shows. */
  readonly tapOf: (phase: Phase, position: number) => number
  readonly reads: (phase: Phase, unit: SolvedUnit) => number
}

export const rightWiring = (regulator: Regulator): Wiring => ({
  tapOf: (_phase, position) => position,
  reads: (_phase, { load, current }) => relayVolts(regulator, load, current),
})

/** One unit reversed in its series winding: what should boost bucks. */
export const reversedPolarity = (regulator: Regulator, wrong: Phase): Wiring => ({
  ...rightWiring(regulator),
  tapOf: (phase, position) => (phase === wrong ? -position : position),
})

/**
 * Source and load leads swapped. With V_S = (1 − 0.00625 n) V_L of type B the line now has its source
 * at L: load over source is 1 − 0.00625 n, which is type A at −n; and type A becomes type B at −n.
 * So the bench of this wiring holds a bank of the other type. The control goes on reading the volts
 * of its L terminal and the current out of it: those of the source, with the current coming in.
 */
export const swappedLeads = (regulator: Regulator): Wiring => ({
  tapOf: (_phase, position) => -position,
  reads: (_phase, unit) => relayVolts(regulator, unit.source, scale(sourceCurrent(unit), -1)),
})

export function otherWindingType(regulator: Regulator): Regulator {
  return { ...regulator, windingType: regulator.windingType === 'A' ? 'B' : 'A' }
}

export const wrongRatio = (regulator: Regulator, ptRatio: number): Wiring => ({
  ...rightWiring(regulator),
  reads: (_phase, { load, current }) => relayVolts({ ...regulator, ptRatio }, load, current),
})

/** A unit passes on the power that it gets, so the current of its source side is the gain times it. */
function sourceCurrent({ source, load, current }: SolvedUnit): Complex {
  return scale(current, magnitude(load) / magnitude(source))
}

/** Through the unit from the source to the load, kilowatts. */
export function powerKw({ load, current }: SolvedUnit): number {
  return multiply(load, conjugate(current)).re / 1000
}

export interface Settled {
  readonly status: 'settled'
  /** As the indicators show them. */
  readonly positions: ByPhase<number>
  readonly units: ByPhase<SolvedUnit>
  readonly reads: ByPhase<number>
}

/** More rounds than a unit has steps from one end to the other, for each of three. */
const MOST_ROUNDS = 100
const STEP_V = BASE_VOLTS120 * STEP_PU

/** Solves with the bank held, all units at one position. */
export function held(
  bench: BankBench,
  wiring: Wiring,
  loadCase: LoadCase,
  position: number,
): Settled | NotSolved {
  return solvedAt(
    bench,
    wiring,
    loadCase,
    Object.fromEntries(bench.phases.map((phase) => [phase, position])),
  )
}

/**
 * Lets the controls run from neutral with the wiring as it is: once straight to the position that the
 * reading asks for, then step by step until every unit rests in its band or at the end of its range.
 * The control is taken to be locked forward.
 */
export function leftToControl(
  bench: BankBench,
  wiring: Wiring,
  loadCase: LoadCase,
  regulator: Regulator,
): Settled | NotSolved {
  let now = held(bench, wiring, loadCase, 0)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (now.status === 'not solved') return now
    const { positions, reads } = now
    const next: ByPhase<number> = {}
    for (const phase of bench.phases) {
      const steps = stepsWanted(reads[phase] ?? Number.NaN, regulator)
      const taken = (round === 0 ? Math.round(steps) : 0) || Math.sign(steps)
      next[phase] = withinLimits((positions[phase] ?? 0) + taken, regulator)
    }
    if (bench.phases.every((phase) => next[phase] === positions[phase])) return now
    now = solvedAt(bench, wiring, loadCase, next)
  }
  return { status: 'not solved', what: `The control keeps tapping in ${loadCase.name}.` }
}

function solvedAt(
  bench: BankBench,
  wiring: Wiring,
  loadCase: LoadCase,
  positions: ByPhase<number>,
): Settled | NotSolved {
  const taps: ByPhase<number> = {}
  for (const phase of bench.phases) taps[phase] = wiring.tapOf(phase, positions[phase] ?? 0)
  const solution = bench.solve(loadCase, taps)
  if (solution.status === 'not solved') return solution
  const reads: ByPhase<number> = {}
  for (const phase of bench.phases) {
    const unit = solution.units[phase]
    if (unit) reads[phase] = wiring.reads(phase, unit)
  }
  return { status: 'settled', positions, units: solution.units, reads }
}

/** Steps from the reading to the middle of the band; 0 inside the band. */
function stepsWanted(reads: number, { bandCentreV, bandwidthV }: Regulator): number {
  const errorV = bandCentreV - reads
  return Math.abs(errorV) <= bandwidthV / 2 ? 0 : errorV / STEP_V
}

function withinLimits(position: number, { maxLower, maxRaise }: Regulator): number {
  return Math.max(-maxLower, Math.min(maxRaise, position))
}
