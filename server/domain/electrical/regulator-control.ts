import { PHASES } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { RegulatorBank } from './regulator-bank.ts'
import { TAP_STEP_PU } from './regulator-bank.ts'
import { DEFAULT_LIMITS, type Sweep } from './sweep.ts'
import type { SweepLimits } from './sweep-kernel.ts'

/** Between two steps of one operation, seconds (common practice, no source). */
const INTER_TAP_S = 5
/** More steps than any sound set of banks needs: every unit from end to end, several times over. */
const MAX_ROUNDS = 600

export type ControlMode =
  /** One step at a time in the order that the delays give: what the field would see. */
  | 'one-step'
  /** As many steps at once as the voltage error asks for; may end one step off, for searches. */
  | 'jump'

export interface ControlOutcome {
  readonly status: 'settled' | 'not-converged' | 'tap-hunting'
  /** Sweep iterations over all rounds. */
  readonly iterations: number
  readonly worstNode: number
}

export interface BankReading {
  /** Load-side volts on the 120 base, by phase index; NaN for phases without a unit. */
  readonly outputVolts120: Float64Array
  /** What the control sees after line-drop compensation. */
  readonly relayVolts: Float64Array
  readonly currentA: Float64Array
}

interface Unit {
  readonly bank: RegulatorBank
  readonly phase: number
  /** Time still to run before the unit may step. */
  waitS: number
  direction: -1 | 0 | 1
}

/**
 * Solves with every bank's taps following its control. Positions start where the banks have them.
 * A unit outside its band waits for its delay, steps once, and goes on stepping every few seconds
 * until it is back; of several units those whose time runs out first step together.
 */
export function controlTaps(
  sweep: Sweep,
  mode: ControlMode,
  limits: SweepLimits = DEFAULT_LIMITS,
  reading: BankReading = emptyReading(),
): ControlOutcome {
  const units = unitsOf(sweep.banks)
  let iterations = 0
  for (let round = 0; round < MAX_ROUNDS; round++) {
    const outcome = sweep.run(limits)
    iterations += outcome.iterations
    if (!outcome.isConverged)
      return { status: 'not-converged', iterations, worstNode: outcome.worstNode }
    const errors = units.map((unit) => bandErrorSteps(sweep, unit, reading))
    const waiting = units.filter((unit, i) => updateWait(unit, errors[i] ?? 0))
    if (waiting.length === 0) return { status: 'settled', iterations, worstNode: outcome.worstNode }
    const nextS = Math.min(...waiting.map(({ waitS }) => waitS))
    const moved = new Set<RegulatorBank>()
    units.forEach((unit, i) => {
      if (unit.direction === 0) return
      unit.waitS -= nextS
      if (unit.waitS > 0) return
      step(unit, mode === 'jump' ? jumpSteps(errors[i] ?? 0) : 1)
      unit.waitS = INTER_TAP_S
      moved.add(unit.bank)
    })
    for (const bank of moved) sweep.applyTaps(bank)
  }
  return { status: 'tap-hunting', iterations, worstNode: sweep.banks[0]?.branch ?? 0 }
}

function unitsOf(banks: readonly RegulatorBank[]): Unit[] {
  return banks.flatMap((bank) =>
    bank.settings.phases.map((phase) => ({
      bank,
      phase: PHASES.indexOf(phase),
      waitS: bank.settings.delayS,
      direction: 0 as const,
    })),
  )
}

/** True while the unit wants to step and can; a unit back in its band starts its delay anew. */
function updateWait(unit: Unit, errorSteps: number): boolean {
  const { maxRaise, maxLower, delayS } = unit.bank.settings
  const tap = unit.bank.taps[unit.phase] ?? 0
  const wanted = errorSteps > 0 ? 1 : errorSteps < 0 ? -1 : 0
  const isStuck = wanted > 0 ? tap >= maxRaise : tap <= -maxLower
  const direction = wanted !== 0 && !isStuck ? wanted : 0
  if (direction === 0 || direction !== unit.direction)
    unit.waitS = direction === unit.direction ? unit.waitS : delayS
  unit.direction = direction
  return direction !== 0
}

function step(unit: Unit, steps: number): void {
  const { maxRaise, maxLower } = unit.bank.settings
  const target = (unit.bank.taps[unit.phase] ?? 0) + unit.direction * steps
  unit.bank.taps[unit.phase] = Math.max(-maxLower, Math.min(maxRaise, target))
}

/** Whole steps for an error of a fraction of steps, a little short so as not to pass the band's edge. */
function jumpSteps(errorSteps: number): number {
  return Math.max(1, Math.ceil(Math.abs(errorSteps) - 0.1))
}

/** How many steps the unit stands below (+) or above (−) its band; 0 inside. */
function bandErrorSteps(sweep: Sweep, { bank, phase }: Unit, reading: BankReading): number {
  readPhase(sweep, bank, phase, reading)
  const { bandCentreV, bandwidthV } = bank.settings
  const volts = reading.relayVolts[phase] ?? Number.NaN
  const stepV = BASE_VOLTS120 * TAP_STEP_PU
  if (volts < bandCentreV - bandwidthV / 2) return (bandCentreV - bandwidthV / 2 - volts) / stepV
  if (volts > bandCentreV + bandwidthV / 2) return (bandCentreV + bandwidthV / 2 - volts) / stepV
  return 0
}

export function emptyReading(): BankReading {
  const empty = () => new Float64Array(3).fill(Number.NaN)
  return { outputVolts120: empty(), relayVolts: empty(), currentA: empty() }
}

/** Voltages and currents at a bank as solved last; fills and returns `reading`. */
export function readBank(
  sweep: Sweep,
  bank: RegulatorBank,
  reading: BankReading = emptyReading(),
): BankReading {
  for (const phase of bank.settings.phases) readPhase(sweep, bank, PHASES.indexOf(phase), reading)
  return reading
}

/**
 * Compensator: relay volts = output volts / PT ratio − (R + jX) · line current / CT primary
 * (Kersting, chapter 7, from memory). The control's base is 120 V at the PT's nominal voltage.
 */
function readPhase(sweep: Sweep, bank: RegulatorBank, phase: number, reading: BankReading): void {
  const { network, state } = sweep
  const { branch, settings } = bank
  const up = (network.parent[branch] as number) * 6
  const gainAt = branch * 3
  const at = phase * 2
  const gain = state.gain[gainAt + phase] as number
  const voltsRe = gain * (state.voltageV[up + at] as number)
  const voltsIm = gain * (state.voltageV[up + at + 1] as number)
  let ampsRe = state.currentA[branch * 6 + at] as number
  let ampsIm = state.currentA[branch * 6 + at + 1] as number
  for (let other = 0; other < 3; other++) {
    const b =
      (network.halfB[branch * 9 + phase * 3 + other] as number) *
      (state.gain[gainAt + other] as number)
    ampsRe -= b * (state.voltageV[up + other * 2 + 1] as number)
    ampsIm += b * (state.voltageV[up + other * 2] as number)
  }
  const { ptRatio, ctPrimaryA, rV, xV } = settings
  const relayRe = voltsRe / ptRatio - (rV * ampsRe - xV * ampsIm) / ctPrimaryA
  const relayIm = voltsIm / ptRatio - (rV * ampsIm + xV * ampsRe) / ctPrimaryA
  reading.outputVolts120[phase] = Math.hypot(voltsRe, voltsIm) / ptRatio
  reading.relayVolts[phase] = Math.hypot(relayRe, relayIm)
  reading.currentA[phase] = Math.hypot(ampsRe, ampsIm)
}
