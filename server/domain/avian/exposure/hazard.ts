import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'

/** Of a pair that a bird can barely bridge, and on top of it of one at no distance. Judgement. */
const BARELY = 0.05
const TIGHTEST = 0.2
/** Share of the hazard that comes from the design species; the rest from how many of all listed species can bridge. */
const OF_DESIGN_SPECIES = 0.8

export const HAZARD_IN_WORDS =
  'Hazard: one less the product over all open pairs of (1 − 0.05 − 0.20 × (1 − share of the bird that the gap takes)), four fifths of it for the design species and one fifth by the share of all listed species that can bridge anything. A judgement that puts poles in order, not a chance of a death.'

/** 0 where no pair is open, towards 1 with more and tighter pairs. Judgement. */
export function hazardOfPairs(pairs: readonly Pick<ContactPair, 'share'>[]): number {
  const spared = pairs.reduce(
    (product, { share }) =>
      product * (1 - BARELY - TIGHTEST * (1 - Math.min(1, Math.max(0, share)))),
    1,
  )
  return 1 - spared
}

/** What can be bridged on a pole, 0 to 1. Null where nothing is recorded to tell it from. */
export function hazardOf({ state, pairs, bySpecies }: PoleAssessment): number | null {
  if (state === 'unknown') return null
  const bridging = bySpecies.filter((species) => species.pairs > 0).length
  const others = bySpecies.length === 0 ? 0 : bridging / bySpecies.length
  return OF_DESIGN_SPECIES * hazardOfPairs(pairs) + (1 - OF_DESIGN_SPECIES) * others
}
