import type { Regulator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'

/**
 * The feeder with a bank in the place of those that it replaces, so that devices on one span keep
 * their order. Null takes the old ones away and sets nothing.
 */
export function feederWithBank(
  feeder: Feeder,
  regulator: Regulator | null,
  replacedIds: readonly string[],
): Feeder {
  const gone = new Set([...replacedIds, ...(regulator ? [regulator.id] : [])])
  const at = feeder.equipment.findIndex(({ id }) => gone.has(id))
  const kept = feeder.equipment.filter(({ id }) => !gone.has(id))
  const place = at < 0 ? kept.length : at
  return {
    ...feeder,
    equipment: regulator ? kept.toSpliced(place, 0, regulator) : kept,
  }
}
