import { bestChoice } from './best-choice.ts'
import type { Programme } from './programme.ts'
import { centsOf, type Limits, type VisitGroup } from './visit-group.ts'

type Curve = Programme['curve']

const STEPS = 24
/** Partial choices times poles for one point: enough for a curve, where a point may lie a little below the best. */
const MOST_LOOKED_AT = 400_000
const FEWEST_KEPT = 20

/**
 * Reduction that can be had for money, from none to what all poles cost, with the budget asked for
 * among them. Never falls: what fits a smaller budget fits a larger one too.
 *
 * @param poles Most poles that the crews have days for.
 * @param asked The point of the request, as chosen.
 */
export function benefitCurve(
  groups: readonly VisitGroup[],
  poles: Limits['poles'],
  asked: Curve[number],
  onProgress?: (done: number, total: number) => void,
): Curve {
  const allCents = groups.reduce(
    (sum, { visitCents, items }) =>
      items.reduce((cents, item) => cents + item.cents, sum + visitCents),
    0,
  )
  const all = groups.reduce((sum, { items }) => sum + items.length, 0)
  const mostKept = Math.max(FEWEST_KEPT, Math.floor(MOST_LOOKED_AT / Math.max(1, all)))
  const budgets = Array.from({ length: STEPS + 1 }, (_, step) =>
    Math.ceil((allCents * step) / STEPS),
  )
  const points = budgets
    .filter((cents) => cents !== centsOf(asked.budgetUsd))
    .map((cents, index) => {
      onProgress?.(index, budgets.length)
      const { worth, items } = bestChoice(groups, { cents, poles }, { mostKept })
      return { budgetUsd: cents / 100, reduction: worth, poles: items.length }
    })
  return neverFalling([...points, asked].sort((a, b) => a.budgetUsd - b.budgetUsd))
}

function neverFalling(points: Curve): Curve {
  let best: Curve[number] | null = null
  return points.map((point) => {
    if (best && best.reduction > point.reduction) {
      return { ...point, reduction: best.reduction, poles: best.poles }
    }
    best = point
    return point
  })
}
