import {
  EXPOSURE_FACTORS,
  type Exposure,
  type ExposureWeights,
  type RankedPole,
} from './exposure.ts'
import { UNKNOWN_SCORE } from './exposure-of-poles.ts'
import { seededRandom } from './seeded-random.ts'

export interface Sensitivity {
  /** The same seed gives the same trials. */
  readonly seed: number
  readonly trials?: number
  /** How many of the first are watched. */
  readonly first?: number
  /** Every weight is drawn evenly from its own value less and plus this share of it. */
  readonly spread?: number
}

const TRIALS = 200
const FIRST = 20
const SPREAD = 0.5

/**
 * Says of the first poles in what share of trials with other weights they stay among the first. A
 * pole that is not first today has null.
 *
 * @param ranked In their order, as `rankPoles` gives them.
 */
export function rankSensitivity(
  ranked: readonly RankedPole[],
  exposures: readonly Exposure[],
  weights: ExposureWeights,
  { seed, trials = TRIALS, first = FIRST, spread = SPREAD }: Sensitivity,
): RankedPole[] {
  const random = seededRandom(seed)
  const table = factorTable(ranked, exposures)
  const hazards = Float64Array.from(ranked, ({ hazard }) => hazard)
  const watched = Math.min(first, ranked.length)
  const stays = new Float64Array(watched)
  for (let trial = 0; trial < trials; trial += 1) {
    const drawn = EXPOSURE_FACTORS.map(
      (factor) => weights[factor] * (1 + spread * (2 * random() - 1)),
    )
    const ranks = ranksWith(drawn, table, hazards)
    for (let index = 0; index < watched; index += 1) {
      if (isAmongFirst(ranks, index, first)) stays[index] = (stays[index] ?? 0) + 1
    }
  }
  return ranked.map((pole, index) => ({
    ...pole,
    staysAmongFirst: index < watched && trials > 0 ? (stays[index] ?? 0) / trials : null,
  }))
}

/** Shape (poles × factors); NaN where a factor is not known. */
function factorTable(ranked: readonly RankedPole[], exposures: readonly Exposure[]): Float64Array {
  const byPole = new Map(exposures.map((exposure) => [exposure.poleId, exposure.factors]))
  return Float64Array.from(
    ranked.flatMap(({ poleId }) =>
      EXPOSURE_FACTORS.map((factor) => byPole.get(poleId)?.[factor] ?? Number.NaN),
    ),
  )
}

function ranksWith(
  weights: readonly number[],
  table: Float64Array,
  hazards: Float64Array,
): Float64Array {
  return hazards.map((hazard, pole) => {
    let [sum, total] = [0, 0]
    for (const [factor, weight] of weights.entries()) {
      const value = table[pole * weights.length + factor] ?? Number.NaN
      if (Number.isNaN(value)) continue
      sum += weight * value
      total += weight
    }
    return hazard * (total > 0 ? sum / total : UNKNOWN_SCORE)
  })
}

/** Fewer than `first` poles stand higher, those before it winning a tie as in the list. */
function isAmongFirst(ranks: Float64Array, index: number, first: number): boolean {
  const own = ranks[index] ?? 0
  let higher = 0
  for (let other = 0; other < ranks.length; other += 1) {
    const rank = ranks[other] ?? 0
    if (rank > own || (rank === own && other < index)) higher += 1
    if (higher >= first) return false
  }
  return true
}
