import type { MeasureUse } from '#domain/avian/measures/measure.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import type { Units } from '../state/address.ts'
import { counted, listed } from '../state/format.ts'
import { gapInUnits } from './gap-words.ts'

/** More labels than this are counted. */
const MOST_NAMED = 4

/** "bushing cover on A-phase transformer bushing"; "longer arm, outer phases at 56 in". */
export function measureInWords(
  { kind, partIds, dimensionM }: MeasureUse,
  parts: readonly Part[],
  units: Units,
): string {
  if (dimensionM !== undefined) return `${kind}, ${gapInUnits(dimensionM, units)}`
  const on = partsInWords(partIds, parts)
  return on === '' ? kind : `${kind} on ${on}`
}

/** Labels of a few parts, or how many there are. */
export function partsInWords(partIds: readonly string[], parts: readonly Part[]): string {
  const labels = partIds.map((id) => parts.find((part) => part.id === id)?.label ?? id)
  return labels.length > MOST_NAMED ? counted(labels.length, 'part') : listed(labels)
}
