import { type Complex, complex, divide, magnitude, scale, subtract } from '#domain/units/complex.ts'

/** R and X of a compensator: volts on the 120 V base at the rated primary current of its CT. */
export interface CompensatorVolts {
  readonly rV: number
  readonly xV: number
}

/** Below this share of the CT's primary current a phase says nothing about the line's impedance. */
const LEAST_CURRENT_SHARE = 0.01

/** What a power flow says of one phase between a bank and its load centre. */
export interface PhaseReading {
  /** Load-side volts of the unit and volts of the load centre, to neutral. */
  readonly bankV: Complex
  readonly centreV: Complex
  /** Line current behind the unit. */
  readonly lineA: Complex
}

/**
 * Impedance that stands for the line and the loads along it, ohms:
 * Z = (volts at the bank − volts at the load centre) / line current (Kersting, Distribution System
 * Modeling and Analysis, chapter 7, from memory).
 */
export function equivalentImpedance({ bankV, centreV, lineA }: PhaseReading): Complex {
  return divide(subtract(bankV, centreV), lineA)
}

/**
 * One impedance for all units of a bank: the mean of its phases, as three controls are set alike
 * (Kersting, chapter 7, from memory). Phases that carry next to nothing are left out; null where
 * none is left.
 */
export function meanImpedance(
  readings: readonly PhaseReading[],
  ctPrimaryA: number,
): Complex | null {
  const loaded = readings.filter(
    ({ lineA }) => magnitude(lineA) >= LEAST_CURRENT_SHARE * ctPrimaryA,
  )
  if (loaded.length === 0) return null
  const sum = loaded.map(equivalentImpedance).reduce((a, b) => complex(a.re + b.re, a.im + b.im))
  return scale(sum, 1 / loaded.length)
}

/**
 * The impedance as it is set at the control: R′ + jX′ volts = (R + jX) ohms · CT primary / PT ratio
 * (Kersting, chapter 7, from memory).
 */
export function compensatorVolts(
  ohms: Complex,
  ctPrimaryA: number,
  ptRatio: number,
): CompensatorVolts {
  const perOhm = ctPrimaryA / ptRatio
  return { rV: ohms.re * perOhm, xV: ohms.im * perOhm }
}
