import type { Item, Limits, VisitGroup } from './visit-group.ts'

/** What a cent and a place in the crews' days are worth, in reduction. */
export interface Prices {
  readonly perCent: number
  readonly perPole: number
}

/** Prices with the bound that they prove: no choice within the limits is worth more. */
export interface PriceBound extends Prices {
  readonly bound: number
}

const HALVINGS = 80
const THIRDS = 40

/** What an item is worth beyond its price. */
export function gainOf({ worth, cents }: Item, { perCent, perPole }: Prices): number {
  return worth - perCent * cents - perPole
}

/** What a visit is worth beyond its price with the items that gain; below 0 where it is not. */
export function gainOfVisit({ visitCents, items }: VisitGroup, prices: Prices): number {
  const gains = items.reduce((sum, item) => sum + Math.max(0, gainOf(item, prices)), 0)
  return gains - prices.perCent * visitCents
}

/**
 * The least bound by Lagrangian relaxation of money, and of the number of poles where `isTight`: for
 * any prices, limits times prices plus the gain of every visit worth it is at least the worth of the
 * best choice (weak duality; Fisher, Management Science 27, 1981, from memory).
 */
export function priceBound(
  groups: readonly VisitGroup[],
  limits: Limits,
  isTight: boolean,
): PriceBound {
  if (!isTight) return boundAt(groups, limits, 0)
  let low = 0
  let high = groups.reduce(
    (most, { items }) => items.reduce((max, { worth }) => Math.max(max, worth), most),
    0,
  )
  for (let step = 0; step < THIRDS; step += 1) {
    const third = (high - low) / 3
    const isLowerBetter =
      boundAt(groups, limits, low + third).bound <= boundAt(groups, limits, high - third).bound
    if (isLowerBetter) high -= third
    else low += third
  }
  return boundAt(groups, limits, (low + high) / 2)
}

/** The best price of a cent for a given price of a pole: spending falls as the price rises. */
function boundAt(groups: readonly VisitGroup[], limits: Limits, perPole: number): PriceBound {
  const free = { perCent: 0, perPole }
  if (spentAt(groups, free) <= limits.cents)
    return { ...free, bound: valueAt(groups, limits, free) }
  let low = 0
  let high = groups.reduce(
    (sum, { items }) => items.reduce((most, { worth }) => most + worth, sum),
    0,
  )
  for (let step = 0; step < HALVINGS; step += 1) {
    const perCent = (low + high) / 2
    if (spentAt(groups, { perCent, perPole }) <= limits.cents) high = perCent
    else low = perCent
  }
  const prices = { perCent: high, perPole }
  return { ...prices, bound: valueAt(groups, limits, prices) }
}

function valueAt(groups: readonly VisitGroup[], limits: Limits, prices: Prices): number {
  // A limit without a price may be endless.
  const ofPoles = prices.perPole > 0 ? prices.perPole * limits.poles : 0
  return groups.reduce(
    (sum, group) => sum + Math.max(0, gainOfVisit(group, prices)),
    prices.perCent * limits.cents + ofPoles,
  )
}

function spentAt(groups: readonly VisitGroup[], prices: Prices): number {
  let cents = 0
  for (const group of groups) {
    if (gainOfVisit(group, prices) <= 0) continue
    cents += group.visitCents
    for (const item of group.items) if (gainOf(item, prices) > 0) cents += item.cents
  }
  return cents
}
