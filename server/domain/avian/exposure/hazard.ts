import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'

/** So many pairs count half as much as endlessly many. Judgement. */
const HALF_COUNT_PAIRS = 10
/** Share of the hazard that comes from the design species; the rest from how many of all listed species can bridge. */
const OF_DESIGN_SPECIES = 0.8

export const HAZARD_IN_WORDS =
  'Hazard: half of it is how tight the tightest open pair is, one less the share of the bird that its gap takes; half is how many pairs are open, n / (n + 10). Four fifths of that for the design species, and one fifth the share of all listed species that can bridge anything. A judgement that puts poles in order, not a chance of a death.'

/**
 * 0 where no pair is open, towards 1 with more and tighter pairs. Judgement. A plain arm with three
 * pairs of 44 in against 60 has 0.25, a transformer pole with thirty pairs down to 5 in 0.83: that
 * ratio is about the one in which equipment poles were found to kill (a quarter of the poles, 53 % of
 * the deaths, in a survey of utilities cited by APLIC 2006; from memory, and not sure).
 */
export function hazardOfPairs(pairs: readonly Pick<ContactPair, 'share'>[]): number {
  if (pairs.length === 0) return 0
  const least = pairs.reduce((less, { share }) => Math.min(less, share), 1)
  return 0.5 * (1 - Math.max(0, least)) + (0.5 * pairs.length) / (pairs.length + HALF_COUNT_PAIRS)
}

/** What can be bridged on a pole, 0 to 1. Null where nothing is recorded to tell it from. */
export function hazardOf({ state, pairs, bySpecies }: PoleAssessment): number | null {
  if (state === 'unknown') return null
  const bridging = bySpecies.filter((species) => species.pairs > 0).length
  const others = bySpecies.length === 0 ? 0 : bridging / bySpecies.length
  return OF_DESIGN_SPECIES * hazardOfPairs(pairs) + (1 - OF_DESIGN_SPECIES) * others
}
