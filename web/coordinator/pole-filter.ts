import type { BirdPole } from '#domain/avian/pole-urgency.ts'

export const POLE_FILTERS = [
  { id: 'all', name: 'All' },
  { id: 'bridgeable', name: 'Can be bridged' },
  { id: 'near-nest', name: 'Near a nest in use' },
  { id: 'failed', name: 'Item failed' },
  { id: 'unknown', name: 'Not settled' },
] as const
export type PoleFilter = (typeof POLE_FILTERS)[number]['id']

const PASSES: Readonly<Record<PoleFilter, (found: BirdPole) => boolean>> = {
  all: () => true,
  bridgeable: ({ separation }) => separation.verdict === 'bridgeable',
  'near-nest': ({ isNearNestInUse }) => isNearNestInUse,
  failed: ({ failedItems }) => failedItems > 0,
  unknown: ({ separation }) => separation.verdict === 'unknown',
}

/**
 * Poles of a kind whose id holds the scrap; case and separators do not matter. Keeps the order, but
 * puts a pole of exactly that id first.
 */
export function filterPoles(
  poles: readonly BirdPole[],
  filter: PoleFilter,
  scrap: string,
): BirdPole[] {
  const wanted = plain(scrap)
  const found = poles.filter((pole) => PASSES[filter](pole) && plain(pole.pole.id).includes(wanted))
  const exact = found.filter(({ pole }) => plain(pole.id) === wanted)
  return exact.length === 0 ? found : [...new Set([...exact, ...found])]
}

const plain = (text: string): string => text.toUpperCase().replaceAll(/[^A-Z0-9]/g, '')
