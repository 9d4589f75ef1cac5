import { type BirdPole, birdFigures, URGENCY_ORDER } from '#domain/avian/pole-urgency.ts'
import type { Working } from '../state/working.ts'

/** How the list of poles came into its order. */
export function urgencyWorking(poles: readonly BirdPole[]): Working {
  const figures = birdFigures(poles)
  return {
    title: 'Order of the poles',
    result: `${figures.bridgeable} of ${figures.poles} poles can be bridged; they come first`,
    formula: URGENCY_ORDER.map((step, index) => `${index + 1}. ${step}`),
    inputs: [
      { name: 'Poles that can be bridged', value: `${figures.bridgeable}` },
      {
        name: 'of these within half a mile of a nest in use',
        value: `${figures.bridgeableNearNest}`,
      },
      { name: 'Poles not settled by what is recorded', value: `${figures.unknown}` },
      { name: 'Items failed', value: `${figures.failedItems}` },
    ],
    source: 'A rule of this project; no published ranking is used, and it is no computed risk.',
    sureness: 'common practice, no source',
    changeAt: 'the recorded separations, nests, finds and items',
  }
}
