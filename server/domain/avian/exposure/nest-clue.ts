import { M_PER_MILE } from '#domain/units/length.ts'
import type { Nest } from '../../feeder/birds.ts'
import type { Position } from '../../feeder/geometry.ts'
import { isEagle } from '../nests/is-eagle.ts'
import { type Clue, NOT_KNOWN, NOTHING_THERE, nearness } from './clue.ts'
import type { PointGrid } from './point-grid.ts'
import { wayInWords } from './way-words.ts'

/** Farther than this a nest says nothing of a pole. Judgement. */
export const NEST_REACH_M = 2 * M_PER_MILE

/** How much a nest counts by its use; one that nobody looked at lately may be in use. Judgement. */
const BY_STATUS: Readonly<Record<Nest['status'], number>> = {
  'in use': 1,
  unknown: 0.6,
  'not in use': 0.25,
}

/** Eagles die most for their number; kestrels hardly span anything on an arm. Judgement. */
function bySpecies(species: string): number {
  if (isEagle(species)) return 1
  return /\bkestrel\b|\bmerlin\b|\bsmall\b/i.test(species) ? 0.4 : 0.7
}

/** The nest that counts most: use times species times nearness. Unknown where none is recorded. */
export function nestClue(at: Position, nests: PointGrid<Nest>): Clue {
  if (nests.items.length === 0) return NOT_KNOWN
  let best = NOTHING_THERE
  for (const { item: nest, distanceM } of nests.within(at, NEST_REACH_M)) {
    const value =
      BY_STATUS[nest.status] * bySpecies(nest.species) * nearness(distanceM, NEST_REACH_M)
    if (value > (best.value ?? 0)) best = { value, reason: nestReason(nest, distanceM) }
  }
  return best
}

function nestReason({ species, status }: Nest, distanceM: number): string {
  const use = status === 'unknown' ? 'use unknown' : status
  return `${species} nest, ${use}, ${wayInWords(distanceM)} away`
}
