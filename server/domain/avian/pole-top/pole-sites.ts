import type { Equipment } from '../../feeder/equipment.ts'
import type { Feeder } from '../../feeder/feeder.ts'
import { lineAtPoles } from './line-at-poles.ts'
import type { PoleSite } from './pole-top.ts'
import type { PoleTopChoice } from './pole-top-choice.ts'

/** What stands behind the drawing of each pole, in the feeder's order; nodes that are no pole are left out. */
export function poleSites(feeder: Feeder, choices: readonly PoleTopChoice[]): PoleSite[] {
  const lines = lineAtPoles(feeder.spans)
  const choiceOf = new Map(choices.map((choice) => [choice.pole, choice]))
  const equipmentOf = new Map<string, Equipment[]>()
  for (const equipment of feeder.equipment) {
    const own = equipmentOf.get(equipment.pole)
    if (own) own.push(equipment)
    else equipmentOf.set(equipment.pole, [equipment])
  }
  return feeder.poles
    .filter(({ isAnonymousNode }) => !isAnonymousNode)
    .map((pole) => ({
      pole,
      phases: lines.get(pole.id)?.phases ?? [],
      tapPhases: lines.get(pole.id)?.tapPhases ?? [],
      equipment: equipmentOf.get(pole.id) ?? [],
      choice: choiceOf.get(pole.id) ?? null,
    }))
}
