import type { Programme } from '#domain/avian/programme/programme.ts'

type Curve = Programme['curve']
export type CurvePoint = Curve[number]

/** The best point of the curve within a budget: what a slider can say before the plan is there. */
export function pointWithin(curve: Curve, budgetUsd: number): CurvePoint | null {
  return curve.filter((point) => point.budgetUsd <= budgetUsd).at(-1) ?? null
}

/** Share of what could be taken away, 0 to 1; 0 where there is nothing to take away. */
export function shareOf(reduction: number, possible: number): number {
  return possible > 0 ? Math.min(1, reduction / possible) : 0
}

export function percent(share: number): string {
  return `${Math.round(share * 100)} %`
}
