import type { BirdSize } from '../species/bird-species.ts'
import type { ContactPair } from './contact-pair.ts'
import { contactPairs } from './contact-pairs.ts'
import { measure, nearestPlaces } from './nearest-places.ts'
import type { Part, Point } from './part.ts'
import { segmentOf } from './segment.ts'

/** Feet are on a part when they are no farther from it than that, metres: the depth of an arm. */
const UNDERFOOT_M = 0.1

/**
 * Of the pairs that a bird of this size can bridge, those that one touches both parts of when it
 * stands just there, tightest first: with either wing, up to half its breadth from its body anywhere
 * between feet and head, or with its feet.
 */
export function bridgedFrom(parts: readonly Part[], feetAt: Point, size: BirdSize): ContactPair[] {
  const [x, y, z] = feetAt
  const body = segmentOf({ from: feetAt, to: [x, y, z + size.heightM], radiusM: 0 })
  const reachM = Math.max(UNDERFOOT_M, size.breadthM / 2)
  const touches = ({ id }: Part): boolean => touched.has(id)
  const touched = new Set(
    parts
      .filter((part) => {
        const own = segmentOf(part)
        const { s, t } = nearestPlaces(body, own, 1, Number.POSITIVE_INFINITY)
        return measure(body, own, s, t, 1, Number.POSITIVE_INFINITY) < reachM
      })
      .map(({ id }) => id),
  )
  return contactPairs(parts, size).filter(({ partA, partB }) => touches(partA) && touches(partB))
}
