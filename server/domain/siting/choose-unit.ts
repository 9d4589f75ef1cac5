import {
  CT_PRIMARIES_A,
  PT_RATIOS,
  type StandardUnit,
  SUPPLEMENTARY_CAP_A,
  SUPPLEMENTARY_RATINGS,
  UNIT_CLASSES,
  type UnitClass,
} from './standard-units.ts'

export interface UnitChoice extends StandardUnit {
  readonly ratedKv: number
  /** False when even the largest preferred unit is smaller than the current with its margin. */
  readonly isLargeEnough: boolean
}

/** A unit may serve a system up to this far above its rated voltage (common practice, no source). */
const OVER_RATED_VOLTAGE = 1.05

/** A tabled ratio within this share of nominal/120 is taken; otherwise the control corrects the ratio. */
const PT_RATIO_TOLERANCE = 0.005

/** Voltage class nearest to the nominal line-to-neutral volts; null above the highest class. */
export function unitClassFor(nominalLineToNeutralV: number): UnitClass | null {
  const nominalKv = nominalLineToNeutralV / 1000
  const distance = (candidate: UnitClass) => Math.abs(Math.log(candidate.ratedKv / nominalKv))
  let best: UnitClass | null = null
  for (const candidate of UNIT_CLASSES) {
    if (candidate.ratedKv * OVER_RATED_VOLTAGE < nominalKv) continue
    if (!best || distance(candidate) < distance(best)) best = candidate
  }
  return best
}

/**
 * Next preferred unit above a current with its margin.
 * Null where no preferred unit is made for the voltage.
 */
export function chooseUnit(
  nominalLineToNeutralV: number,
  peakA: number,
  marginPct: number,
): UnitChoice | null {
  const found = unitClassFor(nominalLineToNeutralV)
  const largest = found?.units.at(-1)
  if (!found || !largest) return null
  const neededA = peakA * (1 + marginPct / 100)
  const unit = found.units.find((candidate) => candidate.ratingA >= neededA)
  return { ...(unit ?? largest), ratedKv: found.ratedKv, isLargeEnough: unit !== undefined }
}

/** Continuous current of a unit held to ±`steps`, amperes. */
export function currentAtReducedRange(ratingA: number, steps: number): number {
  let share = 1
  for (const rating of SUPPLEMENTARY_RATINGS) if (steps <= rating.tapLimit) share = rating.share
  return Math.max(ratingA, Math.min(ratingA * share, SUPPLEMENTARY_CAP_A))
}

export interface ReducedRangeChoice extends StandardUnit {
  readonly tapLimit: number
  readonly currentA: number
}

/**
 * Smallest preferred unit that carries the current if its range is held to the steps in use;
 * null where that is no smaller than the unit chosen at full range.
 */
export function chooseReducedRangeUnit(
  nominalLineToNeutralV: number,
  neededA: number,
  stepsUsed: number,
  fullRangeA: number,
): ReducedRangeChoice | null {
  const tapLimit = SUPPLEMENTARY_RATINGS.findLast(
    (rating) => stepsUsed <= rating.tapLimit,
  )?.tapLimit
  const units = unitClassFor(nominalLineToNeutralV)?.units ?? []
  if (tapLimit === undefined) return null
  for (const unit of units) {
    const currentA = currentAtReducedRange(unit.ratingA, tapLimit)
    if (unit.ratingA >= fullRangeA) return null
    if (currentA >= neededA) return { ...unit, tapLimit, currentA }
  }
  return null
}

/** Ratio of the potential transformer to 120 V for a nominal line-to-neutral voltage. */
export function choosePtRatio(nominalLineToNeutralV: number): number {
  const exact = nominalLineToNeutralV / 120
  const tabled = PT_RATIOS.find(([, ratio]) => Math.abs(ratio / exact - 1) <= PT_RATIO_TOLERANCE)
  return tabled ? tabled[1] : exact
}

/** Next usual current-transformer primary at or above the unit's rated current. */
export function chooseCtPrimaryA(ratingA: number): number {
  return CT_PRIMARIES_A.find((primaryA) => primaryA >= ratingA) ?? ratingA
}
