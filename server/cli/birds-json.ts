import type { BirdAnswer } from './bird-tools.ts'

/**
 * The answer for a program; its form is written in the command's help and kept stable. A pole whose
 * cost is null has something to be done, or to be looked at, that no price is known for.
 */
export function birdsJson(
  feederId: string,
  { species, assessments, cheapest }: BirdAnswer,
): unknown {
  return {
    feeder: feederId,
    species: species.id,
    poles: assessments.map(({ poleId, state, pairs }) => {
      const best = cheapest.get(poleId)
      const isDone = state !== 'unknown' && pairs.length === 0
      return {
        id: poleId,
        state,
        pairs: pairs.map(({ partA, partB, horizontalM, verticalM }) => ({
          partA: partA.id,
          partB: partB.id,
          horizontalM,
          verticalM,
        })),
        measures: best?.uses ?? [],
        cost: isDone ? 0 : best && best.uses.length > 0 ? best.costUsd : null,
      }
    }),
  }
}
