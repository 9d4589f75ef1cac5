import type { Phase } from '#domain/units/phases.ts'
import { drawPart } from './draw-part.ts'
import type { Part } from './part.ts'
import type { Rig } from './rig.ts'

const ABOVE_CONDUCTOR_IN = 6
const BLADE_IN = 18

/** Blades in the line, each beside its insulator on the side of the load. */
export function switchParts(
  { inFront, behind }: Rig,
  id: string,
  phases: readonly Phase[],
): Part[] {
  return phases.flatMap((phase) => {
    const at = behind(phase) ?? inFront(phase)
    if (!at) return []
    const [x, y, z] = at
    const isAcross = Math.abs(x) > Math.abs(y) && inFront(phase)?.[0] === 0
    const along = isAcross ? Math.sign(x) : Math.sign(y)
    return [
      drawPart({
        id: `${id}-${phase}-blade`,
        label: `${phase}-phase switch blade`,
        kind: 'switch blade',
        potential: phase,
        from: [x, y, z + ABOVE_CONDUCTOR_IN],
        to: isAcross
          ? [x + along * BLADE_IN, y, z + ABOVE_CONDUCTOR_IN]
          : [x, y + along * BLADE_IN, z + ABOVE_CONDUCTOR_IN],
        widthIn: 2,
      }),
    ]
  })
}
