import { PHASES } from '#domain/units/phases.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { RegulatorBank } from './regulator-bank.ts'
import { TAP_STEP_PU } from './regulator-bank.ts'
import { DEFAULT_LIMITS, type Sweep } from './sweep.ts'
import type { SweepLimits, SweepOutcome } from './sweep-kernel.ts'

/** Between two steps of one operation, seconds (common practice, no source). */
const INTER_TAP_S = 5
/** More steps than any sound set of banks needs: every unit from end to end, several times over. */
const MAX_ROUNDS = 600
/** One step on the 120 V base. */
const STEP_V = BASE_VOLTS120 * TAP_STEP_PU

/**
 * `aimed`: every bank is first set to the position that its reading asks for, nearest the band
 * centre, in the order of the delays: tap = (centre − relay volts) / 0.75 V, as a hand calculation
 * does it (Kersting, chapter 7, from memory). Then the control steps until every band is met.
 * `stepped`: the control alone, from where the banks stand.
 */
export type ControlMode = 'aimed' | 'stepped'

export interface ControlOutcome {
  readonly status: 'settled' | 'not-converged' | 'tap-hunting'
  /** Sweep iterations over all rounds. */
  readonly iterations: number
  /** The last sweep, with the node whose voltage moved most. */
  readonly last: SweepOutcome
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
  direction: Direction
}

type Direction = -1 | 0 | 1

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
  if (mode === 'aimed') {
    for (const delayS of delaysInOrder(sweep.banks)) {
      const outcome = sweep.run(limits)
      iterations += outcome.iterations
      if (!outcome.isConverged) {
        return { status: 'not-converged', iterations, last: outcome }
      }
      aim(sweep, units, delayS, reading)
    }
  }
  for (let round = 0; round < MAX_ROUNDS; round++) {
    const outcome = sweep.run(limits)
    iterations += outcome.iterations
    if (!outcome.isConverged) {
      return { status: 'not-converged', iterations, last: outcome }
    }
    if (!stepNext(sweep, units, reading)) {
      return { status: 'settled', iterations, last: outcome }
    }
  }
  return { status: 'tap-hunting', iterations, last: sweep.run(limits) }
}

function delaysInOrder(banks: readonly RegulatorBank[]): number[] {
  return [...new Set(banks.map(({ settings }) => settings.delayS))].sort((a, b) => a - b)
}

/** Sets the units of one delay to the positions nearest their band centres. */
function aim(sweep: Sweep, units: readonly Unit[], delayS: number, reading: BankReading): void {
  const moved = new Set<RegulatorBank>()
  for (const unit of units) {
    if (unit.bank.settings.delayS !== delayS || wantedDirection(sweep, unit, reading) === 0)
      continue
    const errorV = unit.bank.settings.bandCentreV - (reading.relayVolts[unit.phase] ?? Number.NaN)
    step(unit, Math.round(errorV / STEP_V))
    moved.add(unit.bank)
  }
  for (const bank of moved) sweep.applyTaps(bank)
}

/** Lets time run until the next units step; false when every unit rests. */
function stepNext(sweep: Sweep, units: readonly Unit[], reading: BankReading): boolean {
  for (const unit of units) updateWait(unit, wantedDirection(sweep, unit, reading))
  const waiting = units.filter(({ direction }) => direction !== 0)
  if (waiting.length === 0) return false
  const nextS = Math.min(...waiting.map(({ waitS }) => waitS))
  const moved = new Set<RegulatorBank>()
  for (const unit of waiting) {
    unit.waitS -= nextS
    if (unit.waitS > 0) continue
    step(unit, unit.direction)
    unit.waitS = INTER_TAP_S
    moved.add(unit.bank)
  }
  for (const bank of moved) sweep.applyTaps(bank)
  return true
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

/** A unit that turns from resting, or turns around, starts its delay anew. */
function updateWait(unit: Unit, wanted: Direction): void {
  const { maxRaise, maxLower, delayS } = unit.bank.settings
  const tap = unit.bank.taps[unit.phase] ?? 0
  const isStuck = wanted > 0 ? tap >= maxRaise : tap <= -maxLower
  const direction = isStuck ? 0 : wanted
  if (direction !== unit.direction) unit.waitS = delayS
  unit.direction = direction
}

function step(unit: Unit, steps: number): void {
  const { maxRaise, maxLower } = unit.bank.settings
  const target = (unit.bank.taps[unit.phase] ?? 0) + steps
  unit.bank.taps[unit.phase] = Math.max(-maxLower, Math.min(maxRaise, target))
}

/** Reads the unit: +1 below its band, −1 above it, 0 inside. */
function wantedDirection(sweep: Sweep, { bank, phase }: Unit, reading: BankReading): Direction {
  readPhase(sweep, bank, phase, reading)
  const { bandCentreV, bandwidthV } = bank.settings
  const volts = reading.relayVolts[phase] ?? Number.NaN
  if (volts < bandCentreV - bandwidthV / 2) return 1
  return volts > bandCentreV + bandwidthV / 2 ? -1 : 0
}

function emptyReading(): BankReading {
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
