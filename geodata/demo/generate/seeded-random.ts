/** Multiplier and modulus of Park and Miller's minimal standard generator (CACM 31:10, 1988; 1993 multiplier). */
const MULTIPLIER = 48_271
const MODULUS = 2_147_483_647

/** Numbers that look random and are the same on every machine. One stream per subject keeps edits local. */
export interface SeededRandom {
  /** Between 0 and 1, neither included. */
  readonly next: () => number
  readonly between: (low: number, high: number) => number
  /** Whole number, both ends included. */
  readonly whole: (low: number, high: number) => number
  readonly chance: (share: number) => boolean
  readonly pick: <Item>(items: readonly Item[]) => Item
  readonly shuffled: <Item>(items: readonly Item[]) => Item[]
}

export function seededRandom(seed: number, subject: string): SeededRandom {
  let state = startOf(seed, subject)
  const next = (): number => {
    state = (state * MULTIPLIER) % MODULUS
    return state / MODULUS
  }
  const between = (low: number, high: number): number => low + (high - low) * next()
  const whole = (low: number, high: number): number => low + Math.floor((high - low + 1) * next())
  const pick = <Item>(items: readonly Item[]): Item => {
    const item = items[whole(0, items.length - 1)]
    if (item === undefined) throw new Error('Expected at least one item to pick from, got none.')
    return item
  }
  const shuffled = <Item>(items: readonly Item[]): Item[] =>
    items
      .map((item) => ({ item, order: next() }))
      .sort((a, b) => a.order - b.order)
      .map(({ item }) => item)
  for (let warmUp = 0; warmUp < 8; warmUp++) next()
  return { next, between, whole, chance: (share) => next() < share, pick, shuffled }
}

function startOf(seed: number, subject: string): number {
  let state = (seed % (MODULUS - 1)) + 1
  for (const letter of subject) state = (state * 131 + letter.charCodeAt(0)) % MODULUS
  return state === 0 ? 1 : state
}
