import type { Feeder } from '../feeder/feeder.ts'
import type { Waypoint } from './waypoint-files.ts'

/**
 * Poles as places to be led to: named by their ids, described by feeder, how they are found, and
 * what hangs there. In the order of `poleIds`; all of the feeder without them.
 * Throws for an id that the feeder does not have.
 */
export function poleWaypoints(
  { header, poles, equipment }: Feeder,
  poleIds: readonly string[] = poles
    .filter(({ isAnonymousNode }) => !isAnonymousNode)
    .map(({ id }) => id),
): Waypoint[] {
  const poleById = new Map(poles.map((pole) => [pole.id, pole]))
  return poleIds.map((id) => {
    const pole = poleById.get(id)
    if (!pole) throw new Error(`Expected a pole of feeder ${header.id}, got ${id}.`)
    const hanging = equipment
      .filter((item) => item.pole === id)
      .map((item) => `${item.kind} ${item.id}`)
    return {
      name: id,
      at: pole.at,
      description: [
        `Pole ${id}, ${header.name}`,
        pole.location,
        hanging.length > 0 ? `with ${hanging.join(', ')}` : undefined,
      ]
        .filter((part) => part !== undefined)
        .join('; '),
    }
  })
}
