import { KIND_OF_ITEM } from '../avian/measures/item-kind.ts'
import type { Part } from '../avian/pole-top/part.ts'
import type { Protection } from '../feeder/birds.ts'
import type { MeasureAsLeft } from './as-left.ts'

export type NewItem = Omit<Protection, 'id'>

/** More labels than this are counted. */
const MOST_NAMED = 4
const MOST_LETTERS = 200

/** A measure that was carried out, as an item that is on the pole. */
export function itemOfMeasure(
  { pole, measure, partIds, dimensionM, materialClass }: MeasureAsLeft,
  parts: readonly Part[],
  given: { readonly on: string; readonly crew: readonly string[] },
): NewItem {
  const installedBy = given.crew.join(', ').slice(0, MOST_LETTERS)
  return {
    pole,
    kind: KIND_OF_ITEM[measure],
    what: measureWords({ measure, partIds }, parts),
    state: 'on',
    on: given.on,
    measure,
    ...(partIds.length > 0 && { partIds }),
    ...(dimensionM !== undefined && { dimensionM }),
    ...(materialClass && { materialClass }),
    ...(installedBy !== '' && { installedBy }),
  }
}

/** "bushing cover on A-phase regulator S bushing, A-phase regulator L bushing". */
export function measureWords(
  { measure, partIds }: Pick<MeasureAsLeft, 'measure' | 'partIds'>,
  parts: readonly Part[],
): string {
  const on = partWords(partIds, parts)
  return on === '' ? measure : `${measure} on ${on}`
}

/** Labels of a few parts, or how many there are. */
function partWords(partIds: readonly string[], parts: readonly Part[]): string {
  if (partIds.length > MOST_NAMED) return `${partIds.length} parts`
  const labelOf = new Map(parts.map(({ id, label }) => [id, label]))
  return partIds.map((id) => labelOf.get(id) ?? id).join(', ')
}
