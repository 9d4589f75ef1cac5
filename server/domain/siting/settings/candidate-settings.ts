import type { VoltageLimits } from '#domain/feeder/header.ts'
import {
  type Complex,
  complex,
  magnitude,
  multiply,
  scale,
  subtract,
} from '#domain/units/complex.ts'
import type { Phase } from '#domain/units/phases.ts'
import {
  type CompensatorVolts,
  compensatorVolts,
  meanImpedance,
  type PhaseReading,
} from './equivalent-impedance.ts'
import type { LoadCentreKind } from './load-centres.ts'

/** Controls are set in steps of this many volts (common practice, no source). */
const SETTING_STEP_V = 0.5
/** Compensators reach this far on either dial (from memory). */
export const MOST_COMPENSATION_V = 24

/** What the control of a bank is given, on the 120 V base. */
export interface ControlSettings extends CompensatorVolts {
  readonly bandCentreV: number
}

/** How a compensation came about. */
export interface Compensation {
  readonly node: number
  readonly kind: LoadCentreKind
  readonly readings: ReadonlyMap<Phase, PhaseReading>
  /** Mean equivalent impedance to the load centre, ohms. */
  readonly ohms: Complex
  /** As it follows from the impedance, before it was held back and rounded. */
  readonly full: CompensatorVolts
  /** Share of it that is set; less than 1 where the first customers would be lifted too high. */
  readonly share: number
}

export interface Candidate {
  readonly settings: ControlSettings
  /** Null for plain settings: a band centre alone. */
  readonly compensation: Compensation | null
}

/** Where a bank stands electrically while its settings are worked out. */
export interface SettingsGround {
  readonly limits: VoltageLimits
  readonly bandwidthV: number
  readonly ctPrimaryA: number
  readonly ptRatio: number
}

/** Plain settings besides the centre that was asked for: as high as the limit lets, and midway. */
export function plainCandidates({ bandwidthV, limits }: SettingsGround): Candidate[] {
  const topV = floorToStep(limits.highVolts120 - bandwidthV / 2)
  return [topV, middleV(limits)].map((bandCentreV) => ({
    settings: { bandCentreV, rV: 0, xV: 0 },
    compensation: null,
  }))
}

/**
 * Compensation to one load centre, each with the highest band centre that keeps the first customers
 * below the high limit with the band at its top: centre ≤ limit − bandwidth / 2 − compensation at
 * peak (from memory). Whole, where that leaves a centre above the low limit, and held back to what
 * a centre midway between the limits allows. None where R or X would be negative or off the dial.
 */
export function compensatedCandidates(
  ground: SettingsGround,
  centre: Pick<Compensation, 'node' | 'kind' | 'readings'>,
): Candidate[] {
  const { bandwidthV, ctPrimaryA, limits, ptRatio } = ground
  const readings = [...centre.readings.values()]
  const ohms = meanImpedance(readings, ctPrimaryA)
  if (!ohms) return []
  const full = compensatorVolts(ohms, ctPrimaryA, ptRatio)
  const wholeV = Math.max(...readings.map((reading) => dropV(full, reading, ground)))
  const roomV = limits.highVolts120 - bandwidthV / 2 - middleV(limits)
  const shares = wholeV > roomV ? [1, roomV / wholeV] : [1]
  return shares.flatMap((share) => {
    const rV = roundToStep(full.rV * share)
    const xV = roundToStep(full.xV * share)
    const setV = Math.max(...readings.map((reading) => dropV({ rV, xV }, reading, ground)))
    const bandCentreV = floorToStep(limits.highVolts120 - bandwidthV / 2 - setV)
    const isOnDial = [rV, xV].every((volts) => volts >= 0 && volts <= MOST_COMPENSATION_V)
    const isHighEnough = bandCentreV - bandwidthV / 2 >= limits.lowVolts120
    if (!isOnDial || rV + xV === 0 || !isHighEnough) return []
    return [{ settings: { bandCentreV, rV, xV }, compensation: { ...centre, ohms, full, share } }]
  })
}

/** Volts that the compensator takes off what the control sees of one phase. */
export function dropV(
  { rV, xV }: CompensatorVolts,
  { bankV, lineA }: PhaseReading,
  { ctPrimaryA, ptRatio }: Pick<SettingsGround, 'ctPrimaryA' | 'ptRatio'>,
): number {
  const outputV = scale(bankV, 1 / ptRatio)
  const compensatedV = multiply(complex(rV, xV), scale(lineA, 1 / ctPrimaryA))
  return magnitude(outputV) - magnitude(subtract(outputV, compensatedV))
}

export function isSame(a: ControlSettings, b: ControlSettings): boolean {
  return a.bandCentreV === b.bandCentreV && a.rV === b.rV && a.xV === b.xV
}

/** Settings so near to each other that trying both would say nothing. */
export function isAlike(a: ControlSettings, b: ControlSettings): boolean {
  const turnedV = Math.abs(a.rV - b.rV) + Math.abs(a.xV - b.xV)
  return turnedV <= 2 * SETTING_STEP_V && Math.abs(a.bandCentreV - b.bandCentreV) <= SETTING_STEP_V
}

function middleV({ highVolts120, lowVolts120 }: VoltageLimits): number {
  return roundToStep((highVolts120 + lowVolts120) / 2)
}

function floorToStep(volts: number): number {
  return Math.floor(volts / SETTING_STEP_V + 1e-9) * SETTING_STEP_V
}

function roundToStep(volts: number): number {
  return Math.round(volts / SETTING_STEP_V) * SETTING_STEP_V
}
