import type { BirdSettings } from '../avian/bird-settings.ts'
import { applyMeasures } from '../avian/measures/apply-measures.ts'
import type { MeasureUse } from '../avian/measures/measure.ts'
import { itemUses } from '../avian/measures/standing-items.ts'
import type { ContactPair } from '../avian/pole-top/contact-pair.ts'
import { contactPairs } from '../avian/pole-top/contact-pairs.ts'
import type { PoleSite } from '../avian/pole-top/pole-top.ts'
import { poleTopOf } from '../avian/pole-top/pole-top-of.ts'
import { designSpecies, sizeOf } from '../avian/species/shipped-species.ts'
import type { Protection } from '../feeder/birds.ts'

/**
 * Pairs of the design species that stand open on a pole with its sound items and the given measures;
 * null where nothing says how its top looks.
 */
export function openPairs(
  site: PoleSite,
  items: readonly Protection[],
  measures: readonly MeasureUse[],
  settings?: BirdSettings,
): number | null {
  return openPairList(site, items, measures, settings)?.length ?? null
}

/** The same pairs themselves, tightest first. */
export function openPairList(
  site: PoleSite,
  items: readonly Protection[],
  measures: readonly MeasureUse[],
  settings?: BirdSettings,
): ContactPair[] | null {
  const top = poleTopOf(site)
  if (!top) return null
  const { standing } = itemUses(top, items)
  const after = applyMeasures(site, top, [...standing, ...measures])
  return contactPairs(after.parts, sizeOf(designSpecies(settings), settings))
}
