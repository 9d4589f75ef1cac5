import type { Equipment, EquipmentKind } from '#domain/feeder/equipment.ts'

/** What already fills a pole that a bank would need for itself, in words (common practice, no source). */
const RULING_KINDS: Partial<Record<EquipmentKind, string>> = {
  regulator: 'a regulator bank',
  transformer: 'a transformer',
  capacitor: 'a capacitor bank',
  switch: 'a switch',
  recloser: 'a recloser',
  solar: 'a solar plant connection',
  generator: 'a generator connection',
  riser: 'a riser',
  meter: 'primary metering',
}

/** One reason for each piece of equipment that leaves no room for a bank. */
export function equipmentReasons(onPole: readonly Equipment[]): string[] {
  return onPole.flatMap((item) => {
    const what = RULING_KINDS[item.kind]
    return what === undefined ? [] : [`The pole already carries ${what} (${item.name ?? item.id}).`]
  })
}

/** Equipment by the pole that carries it. */
export function equipmentByPole(equipment: readonly Equipment[]): Map<string, Equipment[]> {
  const byPole = new Map<string, Equipment[]>()
  for (const item of equipment) {
    const found = byPole.get(item.pole)
    if (found) found.push(item)
    else byPole.set(item.pole, [item])
  }
  return byPole
}
