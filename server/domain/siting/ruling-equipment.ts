import type { Equipment, EquipmentKind } from '#domain/feeder/equipment.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import type { SiteRequest } from './site-request.ts'

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

/** What the equipment of a pole says about a bank there. */
export interface EquipmentVerdict {
  /** One for each piece that leaves no room. */
  readonly reasons: readonly string[]
  /** What has to make way first. */
  readonly cautions: readonly string[]
}

/**
 * Rules a pole out for what fills it. A single-phase service transformer is the one thing that is
 * commonly moved to the next pole to make room (common practice, no source), so the request may have
 * it as a caution.
 */
export function equipmentVerdict(
  onPole: readonly Equipment[],
  request: Pick<SiteRequest, 'serviceTransformers'>,
): EquipmentVerdict {
  const movable = request.serviceTransformers === 'caution' ? movableTransformers(onPole) : []
  return {
    reasons: onPole.filter((item) => !movable.includes(item)).flatMap(reasonOf),
    cautions: movable.map(
      (item) =>
        `The pole carries a single-phase service transformer (${nameOf(item)}): it has to move to another pole first, or the utility’s standard has to allow both.`,
    ),
  }
}

/** Single-phase transformers that serve customers from the pole and are no part of the line. */
export function movableTransformers(onPole: readonly Equipment[]): Equipment[] {
  return onPole.filter(
    (item) =>
      item.kind === 'transformer' &&
      item.span === undefined &&
      item.connection === 'single-phase' &&
      item.phases.length === 1,
  )
}

function reasonOf(item: Equipment): string[] {
  if (isBypassed(item)) {
    return [
      `The pole carries a regulator bank (${nameOf(item)}) that stands bypassed; returning it may do the job.`,
    ]
  }
  const what = RULING_KINDS[item.kind]
  return what === undefined ? [] : [`The pole already carries ${what} (${nameOf(item)}).`]
}

function nameOf({ id, name }: Equipment): string {
  return name ?? id
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
