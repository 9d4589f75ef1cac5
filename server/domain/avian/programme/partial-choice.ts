import type { Choice, Item } from './visit-group.ts'

/** What was decided so far, as a chain back to nothing. */
export interface PartialChoice {
  readonly cents: number
  readonly poles: number
  readonly worth: number
  readonly before: PartialChoice | null
  readonly item: Item | null
}

export const NOTHING_CHOSEN: PartialChoice = {
  cents: 0,
  poles: 0,
  worth: 0,
  before: null,
  item: null,
}

/** Both lists by money, then worth downward; so is the answer. */
export function mergedByMoney(
  a: readonly PartialChoice[],
  b: readonly PartialChoice[],
): PartialChoice[] {
  const merged: PartialChoice[] = []
  let [i, j] = [0, 0]
  while (i < a.length || j < b.length) {
    const [one, other] = [a[i], b[j]]
    if (other === undefined || (one !== undefined && isBefore(one, other))) {
      if (one) merged.push(one)
      i += 1
    } else {
      merged.push(other)
      j += 1
    }
  }
  return merged
}

function isBefore(a: PartialChoice, b: PartialChoice): boolean {
  return a.cents < b.cents || (a.cents === b.cents && a.worth >= b.worth)
}

/**
 * Leaves out what another one beats: no dearer, no more poles where their number is limited, and
 * worth at least as much.
 *
 * @param list By money, then worth downward.
 */
export function undominated(list: readonly PartialChoice[], mostPoles: number): PartialChoice[] {
  if (mostPoles === Number.POSITIVE_INFINITY) {
    let best = Number.NEGATIVE_INFINITY
    return list.filter(({ worth }) => {
      if (worth <= best) return false
      best = worth
      return true
    })
  }
  const best = new PrefixMaximum(mostPoles + 1)
  return list.filter(({ poles, worth }) => {
    if (best.upTo(poles) >= worth) return false
    best.raise(poles, worth)
    return true
  })
}

/** Largest value at or below an index (binary indexed tree; Fenwick 1994, from memory). */
class PrefixMaximum {
  readonly #tree: Float64Array

  constructor(size: number) {
    this.#tree = new Float64Array(size + 1).fill(Number.NEGATIVE_INFINITY)
  }

  upTo(index: number): number {
    let most = Number.NEGATIVE_INFINITY
    for (let at = index + 1; at > 0; at -= at & -at) most = Math.max(most, this.#tree[at] ?? most)
    return most
  }

  raise(index: number, value: number): void {
    for (let at = index + 1; at < this.#tree.length; at += at & -at) {
      this.#tree[at] = Math.max(this.#tree[at] ?? value, value)
    }
  }
}

export function choiceOf(last: PartialChoice): Choice {
  const items: Item[] = []
  for (let at: PartialChoice | null = last; at !== null; at = at.before)
    if (at.item) items.push(at.item)
  return { items: items.reverse(), worth: last.worth, cents: last.cents }
}
