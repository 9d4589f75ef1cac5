import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { Exposure, RankedPole } from './exposure.ts'
import { hazardOf } from './hazard.ts'

/** W-9 before W-10. */
const ID_ORDER = new Intl.Collator('en', { numeric: true })

/**
 * Poles by what can be bridged times how likely birds are there, first the highest, then by id.
 * Poles of unknown state have no place in it: they have to be looked at first, and are left out.
 */
export function rankPoles(
  assessments: readonly PoleAssessment[],
  exposures: readonly Exposure[],
): RankedPole[] {
  const scores = new Map(exposures.map(({ poleId, score }) => [poleId, score]))
  return assessments
    .flatMap((assessment) => {
      const hazard = hazardOf(assessment)
      const exposure = scores.get(assessment.poleId)
      if (hazard === null || exposure === undefined) return []
      const { poleId } = assessment
      return { poleId, hazard, exposure, rank: hazard * exposure, staysAmongFirst: null }
    })
    .sort((a, b) => b.rank - a.rank || ID_ORDER.compare(a.poleId, b.poleId))
}
