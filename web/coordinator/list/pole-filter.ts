import type { PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import { canBeBridged, type ListedPole } from './listed-pole.ts'

export interface PoleFilter {
  /** Part of an id. */
  readonly scrap: string
  readonly state: PoleState | 'can be bridged' | null
  /** Only poles that this species can bridge. */
  readonly speciesId: string | null
  readonly isNearNest: boolean
  /** Only poles with an item whose next look is due on this day or before. */
  readonly dueBy: string | null
  /** Only poles that stand in a job that is not closed. */
  readonly waitsForJob: boolean
}

export const NO_FILTER: PoleFilter = {
  scrap: '',
  state: null,
  speciesId: null,
  isNearNest: false,
  dueBy: null,
  waitsForJob: false,
}

/**
 * Poles that answer to all of it; in an id case and separators do not matter. Keeps the order, but
 * puts a pole of exactly that id first.
 *
 * @param openJobs by pole
 */
export function filterPoles(
  listed: readonly ListedPole[],
  filter: PoleFilter,
  openJobs: ReadonlyMap<string, unknown>,
): ListedPole[] {
  const wanted = plain(filter.scrap)
  const found = listed.filter(
    (pole) =>
      plain(pole.pole.id).includes(wanted) &&
      (!filter.waitsForJob || openJobs.has(pole.pole.id)) &&
      passes(pole, filter),
  )
  const exact = found.filter(({ pole }) => plain(pole.id) === wanted)
  return exact.length === 0 ? found : [...new Set([...exact, ...found])]
}

function passes(listed: ListedPole, { state, speciesId, isNearNest, dueBy }: PoleFilter): boolean {
  if (state === 'can be bridged' && !canBeBridged(listed)) return false
  if (state !== null && state !== 'can be bridged' && listed.assessment?.state !== state) {
    return false
  }
  if (speciesId !== null && !isBridgedBy(listed, speciesId)) return false
  if (isNearNest && !listed.isNearNestInUse) return false
  return dueBy === null || listed.dueOn.some((day) => day <= dueBy)
}

function isBridgedBy({ assessment }: ListedPole, wanted: string): boolean {
  return (
    assessment?.bySpecies.some(({ speciesId, pairs }) => speciesId === wanted && pairs > 0) ?? false
  )
}

const plain = (text: string): string => text.toUpperCase().replaceAll(/[^A-Z0-9]/g, '')
