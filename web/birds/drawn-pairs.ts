import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { NumberedPair } from './pair-labels.ts'

/** More dimension lines than this and none can be read. */
const MOST_DRAWN = 6
/** A part that has so many lines is drawn well enough. */
const MOST_PER_PART = 2

/** Pairs with their numbers, tightest first; those of the same two labels are told as one. */
export function numbered(pairs: readonly ContactPair[]): NumberedPair[] {
  const groups = new Map<string, ContactPair[]>()
  for (const pair of pairs) {
    const labels = `${pair.partA.label}~${pair.partB.label}`
    const group = groups.get(labels)
    if (group) group.push(pair)
    else groups.set(labels, [pair])
  }
  return [...groups.values()].flatMap((group, index) =>
    group.slice(0, 1).map((pair) => ({ number: index + 1, pair, places: group.length })),
  )
}

/** The tightest pairs that can be drawn side by side, and the one that is pointed at. */
export function drawnPairs(
  pairs: readonly NumberedPair[],
  litNumber: number | null,
): NumberedPair[] {
  const uses = new Map<string, number>()
  const chosen: NumberedPair[] = []
  for (const candidate of pairs) {
    const ids = [candidate.pair.partA.id, candidate.pair.partB.id]
    const isCrowded = ids.some((id) => (uses.get(id) ?? 0) >= MOST_PER_PART)
    const isFull = chosen.length >= MOST_DRAWN
    if (candidate.number !== litNumber && (isCrowded || isFull)) continue
    for (const id of ids) uses.set(id, (uses.get(id) ?? 0) + 1)
    chosen.push(candidate)
  }
  return chosen
}
