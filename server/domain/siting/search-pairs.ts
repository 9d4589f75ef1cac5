import { boundPairs, type PairBound } from './pair-bound.ts'
import { placeBanks } from './placement.ts'
import type { SingleTrial } from './search-singles.ts'
import { checkIn, type Hooks, type Ranked, type Study, worthOf } from './study.ts'
import { tryPlacement } from './trial.ts'
import { compareKeys, type RankKey, rankKey } from './trial-order.ts'

/** Enough of the best pairs to choose distinct ones from. */
const KEPT_PAIRS = 50

export interface PairSearch {
  /** Pairs solved to the end, best first. */
  readonly ranked: readonly Ranked[]
  /** Pairs of different poles. */
  readonly total: number
  /** Solved, to the end or until more customers were outside than in the worst pair kept. */
  readonly solved: number
  readonly cutByCustomers: number
  readonly cutByLoss: number
  readonly notSettled: number
  readonly spillPu: number
  /** Only pairs that cannot rank among this many were cut off. */
  readonly kept: number
}

/** Best-first search over all pairs: the bound orders them, and ends the search once nothing better is left. */
export function searchPairs(
  study: Study,
  singles: readonly SingleTrial[],
  hooks: Hooks,
  keep = KEPT_PAIRS,
): PairSearch {
  const bound = boundPairs(study, singles, hooks)
  const pairs = orderedPairs(singles, bound)
  const ranked: Ranked[] = []
  const kept = new Kept(keep)
  let solved = 0
  let notSettled = 0
  for (const pair of pairs) {
    if (kept.excludes(pair.least)) break
    solved += 1
    checkIn(hooks, solved, pairs.length, 'Trying two banks')
    const outcome = tryPair(study, singles, pair, kept)
    if (outcome === 'given-up') continue
    if (outcome === 'not-settled') notSettled += 1
    else {
      ranked.push(outcome)
      kept.add(outcome.key)
    }
  }
  const left = pairs.slice(solved)
  const cutByCustomers = left.filter((pair) => pair.least[0] > (kept.worst?.[0] ?? 0)).length
  return {
    ranked: ranked.sort((x, y) => compareKeys(x.key, y.key)),
    total: pairs.length,
    solved,
    cutByCustomers,
    cutByLoss: left.length - cutByCustomers,
    notSettled,
    spillPu: bound.spillPu,
    kept: keep,
  }
}

interface Pair {
  readonly a: number
  readonly b: number
  readonly least: RankKey
}

function orderedPairs(singles: readonly SingleTrial[], bound: PairBound): Pair[] {
  const pairs: Pair[] = []
  singles.forEach((one, a) => {
    for (let b = a + 1; b < singles.length; b += 1) {
      if (singles[b]?.site.candidate.poleId === one.site.candidate.poleId) continue
      pairs.push({ a, b, least: bound.keyOf(a, b) })
    }
  })
  return pairs.sort((x, y) => compareKeys(x.least, y.least) || x.a - y.a || x.b - y.b)
}

function tryPair(
  study: Study,
  singles: readonly SingleTrial[],
  { a, b }: Pair,
  kept: Kept,
): Ranked | 'given-up' | 'not-settled' {
  const { benches, network, request } = study
  const sites = [singles[a], singles[b]].flatMap((single) => (single ? [single.site] : []))
  let isGivenUp = false
  const trial = tryPlacement(benches, placeBanks(network, request, sites), request, (outside) => {
    isGivenUp =
      request.goal === 'service' && outside > (kept.worst?.[0] ?? Number.POSITIVE_INFINITY)
    return isGivenUp
  })
  if (!trial) return isGivenUp ? 'given-up' : 'not-settled'
  const key = rankKey(trial, request.goal, worthOf(study, sites))
  return { sites, key, outside: trial.outside, meanLossKw: trial.meanLossKw }
}

/** The best keys so far, and the worst of them once there are enough. */
class Kept {
  readonly #keys: RankKey[] = []
  readonly #most: number

  constructor(most: number) {
    this.#most = most
  }

  get worst(): RankKey | undefined {
    return this.#keys[this.#most - 1]
  }

  add(key: RankKey): void {
    if (this.excludes(key)) return
    const at = this.#keys.findIndex((other) => compareKeys(other, key) > 0)
    this.#keys.splice(at < 0 ? this.#keys.length : at, 0, key)
    this.#keys.length = Math.min(this.#keys.length, this.#most)
  }

  excludes(key: RankKey): boolean {
    return this.worst !== undefined && compareKeys(key, this.worst) > 0
  }
}
