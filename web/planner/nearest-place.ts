import type { Position } from '#domain/feeder/geometry.ts'
import type { FeederModel } from '../state/feeder-model.ts'
import type { BankPlaces } from './bank-places.ts'

/** Pole where a bank may sit that lies nearest to a position; null where there is none. */
export function nearestPlace(
  { poleById }: Pick<FeederModel, 'poleById'>,
  places: BankPlaces,
  [lon, lat]: Position,
): string | null {
  const eastShare = Math.cos((lat * Math.PI) / 180)
  let best: string | null = null
  let bestGap = Number.POSITIVE_INFINITY
  for (const id of places.keys()) {
    const at = poleById.get(id)?.at
    if (!at) continue
    const gap = Math.hypot((at[0] - lon) * eastShare, at[1] - lat)
    if (gap >= bestGap) continue
    bestGap = gap
    best = id
  }
  return best
}
