import type { SitingMoney } from './site-request.ts'

/**
 * Sum of yearly worths of a loss that grows with the square of the load, per unit of its value in the
 * first year: Σ ((1+g)²)^(y−1) / (1+i)^y over the years of the study. Formula from memory; the usual
 * present-worth-of-losses form of distribution handbooks.
 */
export function presentWorthOfLosses(
  years: number,
  discountRatePct: number,
  growthPctPerYear: number,
): number {
  const discount = 1 + discountRatePct / 100
  const growth = (1 + growthPctPerYear / 100) ** 2
  let sum = 0
  for (let year = 1; year <= years; year += 1) sum += growth ** (year - 1) / discount ** year
  return sum
}

/** Installed cost of a bank of so many single-phase units. */
export function bankCostUsd(money: SitingMoney, units: number): number {
  return money.bankUsd + money.unitUsd * units
}

export interface Hours {
  readonly hoursPerYear: number
}

/** Energy lost in a year: kilowatts lost in each case times the hours that the case stands for. */
export function energyLossKwhPerYear(cases: readonly Hours[], lossKw: ArrayLike<number>): number {
  return cases.reduce(
    (sum, { hoursPerYear }, index) => sum + hoursPerYear * (lossKw[index] ?? 0),
    0,
  )
}
