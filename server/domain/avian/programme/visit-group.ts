/** One pole with its measures. Money in whole cents, so that sums are exact. */
export interface Item {
  readonly poleId: string
  readonly cents: number
  /** Expected reduction, above 0. */
  readonly worth: number
}

/** Poles that share one way there: its price is due once, as soon as any of them is chosen. */
export interface VisitGroup {
  readonly visitCents: number
  readonly items: readonly Item[]
}

export interface Limits {
  readonly cents: number
  /** Most poles that the crews have days for. */
  readonly poles: number
}

export interface Choice {
  readonly items: readonly Item[]
  readonly worth: number
  /** With the ways there. */
  readonly cents: number
}

export const centsOf = (usd: number): number => Math.round(usd * 100)
