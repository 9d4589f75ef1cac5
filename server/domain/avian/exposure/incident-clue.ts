import { M_PER_MILE } from '#domain/units/length.ts'
import type { Incident } from '../../feeder/birds.ts'
import type { Position } from '../../feeder/geometry.ts'
import { type Clue, NOT_KNOWN, NOTHING_THERE, nearness } from './clue.ts'
import type { Near, PointGrid } from './point-grid.ts'
import { wayInWords } from './way-words.ts'

/** Farther than this a find says nothing of a pole. Judgement. */
export const INCIDENT_REACH_M = M_PER_MILE

/** How much a find tells of birds on poles here, by its cause. Judgement. */
const BY_CAUSE: Readonly<Record<Incident['cause'], number>> = {
  'confirmed electrocution': 0.9,
  'probable electrocution': 0.7,
  unknown: 0.3,
  collision: 0.2,
  shot: 0.1,
}

/**
 * One less what all finds leave: 1 − Π(1 − cause × nearness). A find on the pole itself is at no
 * distance. Unknown where no find is recorded: nobody may have looked.
 */
export function incidentClue(poleId: string, at: Position, finds: PointGrid<Incident>): Clue {
  if (finds.items.length === 0) return NOT_KNOWN
  const near = finds
    .within(at, INCIDENT_REACH_M)
    .map(({ item, distanceM }) => ({ item, distanceM: item.pole === poleId ? 0 : distanceM }))
  const [nearest] = near.toSorted((a, b) => weightOf(b) - weightOf(a))
  if (!nearest) return NOTHING_THERE
  const left = near.reduce((rest, find) => rest * (1 - weightOf(find)), 1)
  return { value: 1 - left, reason: incidentReason(poleId, nearest, near.length - 1) }
}

function weightOf({ item, distanceM }: Near<Incident>): number {
  return BY_CAUSE[item.cause] * nearness(distanceM, INCIDENT_REACH_M)
}

function incidentReason(poleId: string, { item, distanceM }: Near<Incident>, more: number): string {
  const cause = item.cause === 'unknown' ? 'cause unknown' : item.cause
  const where = item.pole === poleId ? 'on this pole' : `${wayInWords(distanceM)} away`
  const others = more > 0 ? `, and ${more} more find${more > 1 ? 's' : ''} within a mile` : ''
  return `${item.species} found ${item.foundOn} ${where}, ${cause}${others}`
}
