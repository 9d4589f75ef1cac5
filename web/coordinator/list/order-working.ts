import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { EXPOSURE_FACTORS, type RankedPole } from '#domain/avian/exposure/exposure.ts'
import { HAZARD_IN_WORDS } from '#domain/avian/exposure/hazard.ts'
import { exposureWeights, WEIGHTS_ARE_JUDGEMENT } from '#domain/avian/exposure/weights.ts'
import type { Working } from '../../state/working.ts'

/** In so many of 100 trials a pole has to stay, to be said to stay. */
const STAYS = 0.95

export interface Steadiness {
  readonly first: number
  readonly stay: number
}

/** Of the first poles, those that stay among the first in nearly all trials with other weights. */
export function steadinessOf(ranked: readonly RankedPole[]): Steadiness | null {
  const first = ranked.filter(({ staysAmongFirst }) => staysAmongFirst !== null)
  if (first.length === 0) return null
  const stay = first.filter(({ staysAmongFirst }) => (staysAmongFirst ?? 0) >= STAYS).length
  return { first: first.length, stay }
}

/** "17 of the first 20 stay among the first 20 when weights change by half." */
export function steadinessInWords({ first, stay }: Steadiness): string {
  return `${stay} of the first ${first} stay among the first ${first} when weights change by up to half.`
}

/** How the list of poles came into its order. */
export function orderWorking(ranked: readonly RankedPole[], settings: BirdSettings): Working {
  const weights = exposureWeights(settings)
  const steadiness = steadinessOf(ranked)
  return {
    title: 'Order of the poles',
    result: steadiness
      ? steadinessInWords(steadiness)
      : 'Rank is what can be bridged times how likely birds are there.',
    formula: [
      'Rank = hazard × exposure',
      HAZARD_IN_WORDS,
      'Exposure = Σ weight × factor ÷ Σ weight, over the factors that are known; each factor is 0 to 1.',
      'Stays among the first: in 95 of 100 trials or more, each with every weight drawn anew between half of it and one and a half of it (200 trials, always the same ones).',
    ],
    inputs: EXPOSURE_FACTORS.map((factor) => ({
      name: `Weight: ${factor}`,
      value: `${weights[factor]} (judgement)`,
    })),
    source: `${WEIGHTS_ARE_JUDGEMENT} No published ranking is used, and a rank is no chance of a death.`,
    sureness: 'assumption',
    changeAt: 'the weights, under Settings; and nests, finds, habitat and pole tops in the record',
  }
}
