import { gainOf, gainOfVisit, type Prices } from './price-bound.ts'
import type { Choice, Item, Limits, VisitGroup } from './visit-group.ts'

/**
 * A good choice to begin with: visits by what they gain for their money, of each what gains and
 * fits; then whatever else still fits, by worth for its money.
 */
export function greedyChoice(
  groups: readonly VisitGroup[],
  limits: Limits,
  prices: Prices,
): Choice {
  const taken = new Taken(limits)
  const worthIt = groups
    .map((group) => ({ group, gain: gainOfVisit(group, prices) }))
    .filter(({ gain }) => gain > 0)
    .toSorted((a, b) => b.gain - a.gain)
  for (const { group } of worthIt) {
    taken.take(
      group,
      group.items.filter((item) => gainOf(item, prices) > 0),
    )
  }
  const rest = groups
    .map((group) => ({ group, ratio: ratioOf(group, taken) }))
    .toSorted((a, b) => b.ratio - a.ratio)
  for (const { group } of rest) taken.take(group, group.items)
  return taken.choice()
}

/** Worth for money of the best of a group that is not taken yet, its way there counted if unpaid. */
function ratioOf({ visitCents, items }: VisitGroup, taken: Taken): number {
  const wayCents = items.some((item) => taken.has(item)) ? 0 : visitCents
  return items
    .filter((item) => !taken.has(item))
    .reduce((best, { worth, cents }) => Math.max(best, worth / Math.max(1, cents + wayCents)), 0)
}

/** What was taken so far, never beyond the limits. */
class Taken {
  readonly #limits: Limits
  readonly #items = new Set<Item>()
  #cents = 0
  #worth = 0

  constructor(limits: Limits) {
    this.#limits = limits
  }

  has(item: Item): boolean {
    return this.#items.has(item)
  }

  take(group: VisitGroup, wanted: readonly Item[]): void {
    let wayCents = group.items.some((item) => this.has(item)) ? 0 : group.visitCents
    const byRatio = wanted
      .filter((item) => !this.has(item))
      .toSorted((a, b) => b.worth * Math.max(1, a.cents) - a.worth * Math.max(1, b.cents))
    for (const item of byRatio) {
      const cents = this.#cents + item.cents + wayCents
      if (cents > this.#limits.cents || this.#items.size >= this.#limits.poles) continue
      this.#items.add(item)
      this.#cents = cents
      this.#worth += item.worth
      wayCents = 0
    }
  }

  choice(): Choice {
    return { items: [...this.#items], worth: this.#worth, cents: this.#cents }
  }
}
