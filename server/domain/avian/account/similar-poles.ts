import { distance, point } from '@turf/turf'
import { M_PER_MILE } from '#domain/units/length.ts'
import type { Feeder } from '../../feeder/feeder.ts'

/** Half a mile around a find: a planning default, no published source; an assumption. */
export const SIMILAR_WITHIN_M = M_PER_MILE / 2

export interface SimilarPole {
  readonly poleId: string
  readonly distanceM: number
}

export interface Likeness {
  /** As recorded; null where it is not. */
  readonly framing: string | null
  /** Kinds of equipment in alphabetical order, each as often as it hangs there. */
  readonly equipment: readonly string[]
}

/** What makes a pole alike to others for a bird: how it is framed and what hangs on it. */
export function likenessOf(feeder: Feeder, poleId: string): Likeness {
  const pole = feeder.poles.find(({ id }) => id === poleId)
  return {
    framing: pole?.framing ?? null,
    equipment: (equipmentKinds(feeder).get(poleId) ?? []).toSorted(),
  }
}

/** Poles with the same framing and equipment near a pole, nearest first, without the pole itself. */
export function similarPoles(
  feeder: Feeder,
  poleId: string,
  withinM: number = SIMILAR_WITHIN_M,
): SimilarPole[] {
  const origin = feeder.poles.find(({ id }) => id === poleId)
  if (!origin) return []
  const kinds = equipmentKinds(feeder)
  const likeness = (id: string, framing = '') =>
    [framing, ...(kinds.get(id) ?? []).toSorted()].join('\n')
  const sought = likeness(poleId, origin.framing)
  return feeder.poles
    .filter(
      ({ id, framing, isAnonymousNode }) =>
        id !== poleId && !isAnonymousNode && likeness(id, framing) === sought,
    )
    .map(({ id, at }) => ({
      poleId: id,
      distanceM: distance(point(origin.at), point(at), { units: 'meters' }),
    }))
    .filter(({ distanceM }) => distanceM <= withinM)
    .sort((a, b) => a.distanceM - b.distanceM)
}

function equipmentKinds({ equipment }: Feeder): Map<string, string[]> {
  const kinds = new Map<string, string[]>()
  for (const { pole, kind } of equipment) kinds.set(pole, [...(kinds.get(pole) ?? []), kind])
  return kinds
}
