import { EAGLE_GUIDANCE } from '#domain/avian/eagle-guidance.ts'
import type { PoleSeparation } from '#domain/avian/separation.ts'
import { gapBothUnits, gapInches, verdictInWords } from '#domain/avian/separation-words.ts'
import type { Working } from '../state/working.ts'

/** How the verdict on a pole came about. */
export function separationWorking(separation: PoleSeparation): Working {
  return {
    title: `Separation at pole ${separation.poleId}`,
    result: verdictInWords(separation),
    formula: [
      `A pair is sufficient if horizontal ≥ ${gapInches(EAGLE_GUIDANCE.horizontalM)} or vertical ≥ ${gapInches(EAGLE_GUIDANCE.verticalM)}.`,
      'A pair is short if both are recorded and neither reaches; else it is not settled.',
      'A pole can be bridged if one of its pairs is short.',
      'Guards, covers and perches do not count: they move no part further apart.',
    ],
    inputs: separation.pairs.flatMap(({ pair, horizontalM, verticalM }) => [
      { name: `${pair}, horizontal`, value: recorded(horizontalM) },
      { name: `${pair}, vertical`, value: recorded(verticalM) },
    ]),
    source: `${EAGLE_GUIDANCE.citation}. ${EAGLE_GUIDANCE.note}`,
    sureness: EAGLE_GUIDANCE.sureness,
    changeAt: 'the separations in the poles layer of the feeder folder',
  }
}

const recorded = (lengthM: number | null): string =>
  lengthM === null ? 'not recorded' : gapBothUnits(lengthM)
