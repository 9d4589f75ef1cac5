import type { Feeder } from '../../feeder/feeder.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { Clue } from './clue.ts'
import {
  EXPOSURE_FACTORS,
  type Exposure,
  type ExposureFactor,
  type ExposureWeights,
} from './exposure.ts'
import { INCIDENT_REACH_M, incidentClue } from './incident-clue.ts'
import { habitatClues, openGroundClues } from './land-clues.ts'
import { NEST_REACH_M, nestClue } from './nest-clue.ts'
import { PointGrid } from './point-grid.ts'
import { prominenceClues } from './prominence-clue.ts'
import type { Surroundings } from './surroundings.ts'
import { tallerClues } from './taller-clue.ts'
import { exposureWeights } from './weights.ts'

/** Taken where nothing is known of a pole: neither safe nor dangerous. */
export const UNKNOWN_SCORE = 0.5

/**
 * How likely birds are at each real pole, in the feeder's order. A weighted mean of what is known;
 * what is not known counts neither for nor against. All weights and reaches are judgement.
 *
 * @param feeder Its nests and incidents are those of the record.
 * @param surroundings Ground and relief, where the land around is known.
 */
export function exposureOfPoles(
  feeder: Feeder,
  settings?: BirdSettings,
  surroundings?: Surroundings,
): Exposure[] {
  const weights = exposureWeights(settings)
  const nests = new PointGrid(feeder.nests, ({ at }) => at, NEST_REACH_M)
  const finds = new PointGrid(feeder.incidents, ({ at }) => at, INCIDENT_REACH_M)
  const habitatAt = habitatClues(feeder.habitat)
  const groundAt = openGroundClues(surroundings?.ground ?? [])
  const prominenceAt = prominenceClues(surroundings?.contours ?? [])
  const tallerThan = tallerClues(feeder.poles, feeder.spans)
  return feeder.poles
    .filter(({ isAnonymousNode }) => !isAnonymousNode)
    .map((pole) =>
      exposureOf(pole.id, weights, {
        nest: nestClue(pole.at, nests),
        habitat: habitatAt(pole.at),
        'open ground': groundAt(pole.at),
        prominence: prominenceAt(pole.at),
        'taller than neighbours': tallerThan(pole),
        'incidents nearby': incidentClue(pole.id, pole.at, finds),
      }),
    )
}

function exposureOf(
  poleId: string,
  weights: ExposureWeights,
  clues: Readonly<Record<ExposureFactor, Clue>>,
): Exposure {
  const factors = Object.fromEntries(
    EXPOSURE_FACTORS.map((factor) => [factor, clues[factor].value]),
  ) as Record<ExposureFactor, number | null>
  const score = weightedMean(factors, weights)
  const reasons = EXPOSURE_FACTORS.filter((factor) => clues[factor].reason !== '')
    .map((factor) => ({
      reason: clues[factor].reason,
      counts: weights[factor] * (clues[factor].value ?? 0),
    }))
    .toSorted((a, b) => b.counts - a.counts)
    .map(({ reason }) => reason)
  return {
    poleId,
    factors,
    score: score ?? UNKNOWN_SCORE,
    reasons:
      score === null
        ? ['nothing is recorded that tells of birds here; taken as middling']
        : reasons,
  }
}

/** Null where nothing is known, or what is known does not count. */
export function weightedMean(
  factors: Exposure['factors'],
  weights: ExposureWeights,
): number | null {
  let [sum, total] = [0, 0]
  for (const factor of EXPOSURE_FACTORS) {
    const value = factors[factor]
    if (value === null) continue
    sum += weights[factor] * value
    total += weights[factor]
  }
  return total > 0 ? sum / total : null
}
