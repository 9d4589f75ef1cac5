import {
  chooseCtPrimaryA,
  chooseReducedRangeUnit,
  chooseUnit,
  type UnitChoice,
} from './choose-unit.ts'
import type { BankReport } from './examine-placement.ts'
import type { Site } from './placement.ts'
import type { SiteRequest } from './site-request.ts'

export interface BankSize extends UnitChoice {
  /** Highest current of any phase in any case. */
  readonly peakA: number
  readonly ctPrimaryA: number
  /** What the size means, in short warnings and hints. */
  readonly flags: readonly string[]
}

/** Unit of a bank for the highest current of all its cases. Throws above the highest voltage class. */
export function sizeBank(
  site: Site,
  reports: readonly BankReport[],
  request: SiteRequest,
  growthPctPerYear: number,
): BankSize {
  const nominalV = site.candidate.nominalLineToNeutralV
  const peakA = Math.max(...reports.map((report) => report.peakA))
  const unit = chooseUnit(nominalV, peakA, request.ratingMarginPct)
  if (!unit) throw new Error(`No preferred unit is made for ${nominalV.toFixed(0)} V to neutral.`)
  const flags = [
    ...tooSmall(unit, peakA, request),
    ...outgrown(unit, peakA, growthPctPerYear, request),
    ...reducedRange(unit, nominalV, peakA, reports, request),
  ]
  return { ...unit, peakA, ctPrimaryA: chooseCtPrimaryA(unit.ratingA), flags }
}

function tooSmall(unit: UnitChoice, peakA: number, { ratingMarginPct }: SiteRequest): string[] {
  if (unit.isLargeEnough) return []
  const neededA = peakA * (1 + ratingMarginPct / 100)
  return [
    `${neededA.toFixed(0)} A with margin is more than the largest preferred unit (${unit.ratingA} A).`,
  ]
}

function outgrown(
  unit: UnitChoice,
  peakA: number,
  growthPctPerYear: number,
  request: SiteRequest,
): string[] {
  if (growthPctPerYear <= 0 || peakA <= 0 || peakA > unit.ratingA) return []
  const years = Math.log(unit.ratingA / peakA) / Math.log(1 + growthPctPerYear / 100)
  if (years >= request.money.studyYears) return []
  const after = years < 1 ? 'within a year' : `after about ${Math.floor(years)} years`
  return [
    `At ${growthPctPerYear} % growth a year the peak current passes the ${unit.ratingA} A rating ${after}.`,
  ]
}

function reducedRange(
  unit: UnitChoice,
  nominalV: number,
  peakA: number,
  reports: readonly BankReport[],
  request: SiteRequest,
): string[] {
  const taps = reports.flatMap((report) => Object.values(report.taps))
  const used = Math.max(0, ...taps.map(Math.abs))
  const neededA = peakA * (1 + request.ratingMarginPct / 100)
  const smaller = chooseReducedRangeUnit(nominalV, neededA, used, unit.ratingA)
  if (!smaller || !unit.isLargeEnough) return []
  const { ratingA, ratingKva, tapLimit, currentA } = smaller
  return [
    `Taps stay within ±${used}: a ${ratingA} A (${ratingKva} kVA) unit held to ±${tapLimit} steps would carry ${currentA.toFixed(0)} A.`,
  ]
}
