import { greedyChoice } from './greedy-choice.ts'
import {
  choiceOf,
  mergedByMoney,
  NOTHING_CHOSEN,
  type PartialChoice,
  undominated,
} from './partial-choice.ts'
import { gainOf, gainOfVisit, type PriceBound, priceBound } from './price-bound.ts'
import type { Choice, Item, Limits, VisitGroup } from './visit-group.ts'

export interface BestChoice extends Choice {
  /** Nothing within the limits is worth more than this; the worth itself where proven best. */
  readonly bound: number
}

export interface Effort {
  /** Partial choices kept at a time; beyond it the least promising go, and the bound says so. */
  readonly mostKept?: number
  readonly onProgress?: (done: number, total: number) => void
}

/** Partial choices times poles that are looked at in reasonable time; each list holds its share. */
const MOST_LOOKED_AT = 2e7
const FEWEST_KEPT = 200
const MOST_KEPT = 20_000

const keptFor = (poles: number): number =>
  Math.max(FEWEST_KEPT, Math.min(MOST_KEPT, Math.floor(MOST_LOOKED_AT / Math.max(1, poles))))

/**
 * The poles of the largest worth within the limits: a knapsack with a fixed charge for each visit.
 * Dynamic programming over (money, poles, worth), where a partial choice is dropped when another is
 * no dearer and worth as much, or when not even the price bound of what is left lifts it above the
 * best choice known. Exact unless more than `mostKept` remain at once.
 */
export function bestChoice(
  groups: readonly VisitGroup[],
  limits: Limits,
  effort: Effort = {},
): BestChoice {
  const fitting = groups.filter(({ items }) => items.length > 0)
  const all = fitting.reduce((sum, { items }) => sum + items.length, 0)
  const mostKept = effort.mostKept ?? keptFor(all)
  const hooks = { ...effort, mostKept }
  const endless = { ...limits, poles: Number.POSITIVE_INFINITY }
  const relaxed = new ChoiceSearch(fitting, endless, hooks).run()
  const isTight = limits.poles < all && relaxed.items.length > limits.poles
  return isTight ? new ChoiceSearch(fitting, limits, hooks).run() : relaxed
}

/** One search: what is known of the best so far, and what was dropped unproven. */
class ChoiceSearch {
  readonly #limits: Limits
  readonly #effort: Effort & { readonly mostKept: number }
  readonly #prices: PriceBound
  readonly #groups: readonly VisitGroup[]
  readonly #start: Choice
  #best: PartialChoice | null = null
  #bestWorth: number
  #droppedBound = 0

  constructor(
    groups: readonly VisitGroup[],
    limits: Limits,
    effort: Effort & { mostKept: number },
  ) {
    this.#limits = limits
    this.#effort = effort
    this.#prices = priceBound(groups, limits, limits.poles !== Number.POSITIVE_INFINITY)
    this.#start = greedyChoice(groups, limits, this.#prices)
    this.#bestWorth = this.#start.worth
    const clearness = (group: VisitGroup) => Math.abs(gainOfVisit(group, this.#prices))
    this.#groups = groups.toSorted((a, b) => clearness(b) - clearness(a))
  }

  run(): BestChoice {
    let rest = this.#groups.reduce((sum, group) => sum + this.#hope(group), 0)
    let list: readonly PartialChoice[] = [NOTHING_CHOSEN]
    for (const [done, group] of this.#groups.entries()) {
      this.#effort.onProgress?.(done, this.#groups.length)
      rest -= this.#hope(group)
      list = this.#decide(list, group, rest)
    }
    const choice = this.#best ? choiceOf(this.#best) : this.#start
    return { ...choice, bound: Math.max(choice.worth, this.#droppedBound) }
  }

  #hope(group: VisitGroup): number {
    return Math.max(0, gainOfVisit(group, this.#prices))
  }

  /** @param rest What the groups after this one may gain at most. */
  #decide(list: readonly PartialChoice[], group: VisitGroup, rest: number): PartialChoice[] {
    const clearness = (item: Item) => Math.abs(gainOf(item, this.#prices))
    const items = group.items.toSorted((a, b) => clearness(b) - clearness(a))
    let inside = items.reduce((sum, item) => sum + Math.max(0, gainOf(item, this.#prices)), 0)
    let opened = this.#kept(
      list.map((partial) => ({ ...partial, cents: partial.cents + group.visitCents })),
      rest + inside,
    )
    for (const item of items) {
      inside -= Math.max(0, gainOf(item, this.#prices))
      const added = opened.map((partial) => withItem(partial, item))
      opened = this.#kept(mergedByMoney(opened, added), rest + inside)
    }
    return this.#kept(mergedByMoney(list, opened), rest)
  }

  /** What is within the limits, beaten by no other and can still be better than the best known. */
  #kept(list: readonly PartialChoice[], hope: number): PartialChoice[] {
    const within = list.filter(
      ({ cents, poles }) => cents <= this.#limits.cents && poles <= this.#limits.poles,
    )
    for (const partial of within) {
      if (partial.worth <= this.#bestWorth) continue
      this.#best = partial
      this.#bestWorth = partial.worth
    }
    const open = within.filter((partial) => this.#boundOf(partial, hope) > this.#bestWorth)
    return this.#limited(undominated(open, this.#limits.poles), hope)
  }

  #boundOf({ worth, cents, poles }: PartialChoice, hope: number): number {
    const { perCent, perPole } = this.#prices
    const ofPoles = perPole > 0 ? perPole * (this.#limits.poles - poles) : 0
    return worth + perCent * (this.#limits.cents - cents) + ofPoles + hope
  }

  #limited(list: PartialChoice[], hope: number): PartialChoice[] {
    const most = this.#effort.mostKept
    if (list.length <= most) return list
    const bounds = list.map((partial) => this.#boundOf(partial, hope)).sort((a, b) => b - a)
    const least = bounds[most] ?? 0
    this.#droppedBound = Math.max(this.#droppedBound, least)
    return list.filter((partial) => this.#boundOf(partial, hope) > least)
  }
}

function withItem(before: PartialChoice, item: Item): PartialChoice {
  return {
    cents: before.cents + item.cents,
    poles: before.poles + 1,
    worth: before.worth + item.worth,
    before,
    item,
  }
}
