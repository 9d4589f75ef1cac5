import { distanceText } from '../../../jobs/places/distance-text.ts'
import type { Units } from '../../../state/address.ts'

/** Up to here a position of a phone may be off by itself; common practice, no source. */
const NEAR_M = 30
/** From here on it was hardly taken at this pole; spans are about that long. Assumption. */
const FAR_M = 90

/** "Taken 115 ft from the pole." and what that means; undefined where the picture says no place. */
export function offPoleWords(offPoleM: number | undefined, units: Units): string {
  if (offPoleM === undefined) return 'The picture does not say where it was taken.'
  const taken = `Taken ${distanceText(offPoleM, units)} from the pole`
  if (offPoleM <= NEAR_M) return `${taken}.`
  if (offPoleM < FAR_M) return `${taken}; the device may have been off, or it was taken from afar.`
  return `${taken}: is it of this pole? It is kept all the same.`
}
