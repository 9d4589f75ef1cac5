import type { Phase } from '#domain/units/phases.ts'
import { drawWire, type PointIn } from './draw-part.ts'
import type { Part } from './part.ts'
import { dropLevelIn, type Rig } from './rig.ts'

/** A jumper of a phase through several points. */
export function jumper(
  id: string,
  phase: Phase,
  to: string,
  through: readonly (PointIn | null)[],
): Part[] {
  return drawWire(
    { id, label: `${phase}-phase jumper to ${to}`, kind: 'jumper', potential: phase },
    through.filter((point) => point !== null),
  )
}

/** From the conductor in front of the pole: down past the arm, then across. Empty where there is none. */
export function leadFromLine(rig: Rig, id: string, phase: Phase, to: string, end: PointIn): Part[] {
  const start = rig.inFront(phase)
  if (!start) return []
  const [x, y, z] = start
  return jumper(id, phase, to, [start, [x, y + 2, dropLevelIn(rig, z)], end])
}

/** Back to the conductor behind the pole, past its side. Empty where the line ends here. */
export function leadToLine(rig: Rig, id: string, phase: Phase, to: string, start: PointIn): Part[] {
  const end = rig.behind(phase)
  if (!end) return []
  const [x, y, z] = end
  const place = rig.leftToRight.indexOf(phase)
  const besideIn = [-30, 14, 34][rig.leftToRight.length === 1 ? 1 : place] ?? 14
  return jumper(id, phase, to, [
    start,
    [besideIn, 2, Math.max(start[2] + 12, dropLevelIn(rig, z) - 30)],
    [x, y - 2, dropLevelIn(rig, z)],
    end,
  ])
}
