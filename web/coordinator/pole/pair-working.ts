import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSize, BirdSpecies } from '#domain/avian/species/bird-species.ts'
import { inBothUnits } from '../../birds/both-units.ts'
import type { Working } from '../../state/working.ts'

/** How the pairs of a pole were found, with the figures of the tightest. */
export function pairWorking(
  { poleId, pairs }: PoleAssessment,
  species: BirdSpecies,
  size: BirdSize,
): Working {
  const tightest = pairs[0]
  return {
    title: `What the ${species.name} can bridge on pole ${poleId}`,
    result: `${pairs.length} ${pairs.length === 1 ? 'pair' : 'pairs'}`,
    formula: [
      'A pair is two bare parts of different potential; wood and porcelain have none.',
      'Share of the bird = the larger of distance ÷ breadth and height difference ÷ height, at the two places where that is least.',
      `It is bridged where the share is below 1: sufficient is a distance ≥ ${inBothUnits(size.breadthM)} or a height difference ≥ ${inBothUnits(size.heightM)}.`,
      'A part to stand on has to lie within one breadth of both.',
      'Covers count where they are on the pole and sound; perches and deterrents never do.',
    ],
    inputs: [
      { name: 'breadth, wrist to wrist', value: inBothUnits(size.breadthM) },
      { name: 'height, head to foot', value: inBothUnits(size.heightM) },
      ...(tightest
        ? [
            {
              name: 'tightest pair',
              value: `${tightest.partA.label} ↔ ${tightest.partB.label}`,
            },
            { name: 'distance between surfaces', value: inBothUnits(tightest.distanceM) },
            { name: 'height difference', value: inBothUnits(tightest.verticalM) },
            { name: 'share of the bird', value: tightest.share.toFixed(2) },
          ]
        : []),
    ],
    source: species.breadth.source,
    sureness: species.breadth.sureness,
    changeAt: 'sizes in the settings of the bird desk; dimensions by “Measure this pole”',
  }
}
