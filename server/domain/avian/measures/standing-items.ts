import type { Protection } from '../../feeder/birds.ts'
import type { Part } from '../pole-top/part.ts'
import type { PoleTop } from '../pole-top/pole-top.ts'
import { coverFor, isCoverKind } from './cover-parts.ts'
import { type ItemWords, itemWords } from './item-words.ts'
import type { MeasureUse } from './measure.ts'

export interface ItemUses {
  /** On the pole and sound. */
  readonly standing: readonly MeasureUse[]
  /** Once on the pole and not to be relied on any more. */
  readonly failed: readonly MeasureUse[]
}

/**
 * What the items of a pole do to its parts. An item stands where its state is `on` and the last look
 * found it sound, or nobody has looked. One that failed, or is loose, slipped, tracked or missing,
 * does not; what is planned or was taken down does nothing at all.
 */
export function itemUses(top: PoleTop, items: readonly Protection[]): ItemUses {
  const own = items.filter(({ pole }) => pole === top.poleId)
  const usesOf = (chosen: readonly Protection[]) =>
    chosen.flatMap((item) => {
      const use = itemUse(top, item)
      return use ? [use] : []
    })
  return { standing: usesOf(own.filter(isStanding)), failed: usesOf(own.filter(hasFailed)) }
}

export function isStanding({ state, condition }: Protection): boolean {
  return state === 'on' && (condition === undefined || condition === 'sound')
}

export function hasFailed({ state, condition }: Protection): boolean {
  return state === 'failed' || (state === 'on' && condition !== undefined && condition !== 'sound')
}

/** Null where neither field nor words tell what it is, or no part of the pole top is meant. */
export function itemUse(top: PoleTop, item: Protection): MeasureUse | null {
  const words = itemWords(item)
  if (!words.measure) return null
  const partIds = partsOf(top, item, words)
  if (isCoverKind(words.measure) && partIds.length === 0) return null
  return {
    kind: words.measure,
    partIds,
    ...(item.dimensionM !== undefined && { dimensionM: item.dimensionM }),
  }
}

function partsOf({ parts }: PoleTop, { partIds }: Protection, words: ItemWords): string[] {
  if (partIds) {
    const named = new Set(partIds)
    return parts.flatMap(({ id }) => (named.has(id) ? [id] : []))
  }
  return parts.filter((part) => isMeant(part, words)).map(({ id }) => id)
}

/** By the kind of part, the phases that are named, and not at other equipment than is named. */
function isMeant(part: Part, { measure, phases, equipment }: ItemWords): boolean {
  if (coverFor(part) !== measure) return false
  const isEnergized = part.potential !== 'grounded'
  if (!isEnergized && measure !== 'ground-wire moulding') return false
  if (isEnergized && phases.size > 0 && !phases.has(part.potential)) return false
  const at = equipmentIn(part)
  return equipment.length === 0 || at === null || equipment.includes(at)
}

function equipmentIn({ label }: Part): string | null {
  return (
    /transformer|regulator|recloser|capacitor|switch|riser/i.exec(label)?.[0].toLowerCase() ?? null
  )
}
