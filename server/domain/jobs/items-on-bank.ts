import type { MeasureUse } from '../avian/measures/measure.ts'
import { itemUse } from '../avian/measures/standing-items.ts'
import type { PoleTop } from '../avian/pole-top/pole-top.ts'
import type { Protection } from '../feeder/birds.ts'

/** Ids of the parts that an item is on; none where neither its fields nor its words tell. */
export function partsOfItem(item: Protection, top: PoleTop | undefined): readonly string[] {
  return item.partIds ?? (top ? (itemUse(top, item)?.partIds ?? []) : [])
}

export function measureOfItem(
  item: Protection,
  top: PoleTop | undefined,
): MeasureUse['kind'] | undefined {
  return item.measure ?? (top ? itemUse(top, item)?.kind : undefined)
}

/** Whether every part that it is on belongs to the units of a bank, so that it comes down with them. */
export function sitsOnBank(item: Protection, bankId: string, top: PoleTop | undefined): boolean {
  const parts = partsOfItem(item, top)
  return parts.length > 0 && parts.every((id) => id.startsWith(`${bankId}-`))
}
