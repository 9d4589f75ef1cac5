import { drawPart } from './draw-part.ts'
import type { Part } from './part.ts'
import type { PolePlan } from './pole-plan.ts'
import { armLevelIn, hasArm, POLE_WIDTH_IN } from './supports.ts'

const DRAWN_IN = 96
/** Below the uppermost conductor, so that the guy holds against its pull. */
const BELOW_TOP_IN = 22

/** Down guys at 45 degrees, behind the pole first, then to the left, in front and to the right. */
export function guyParts(plan: PolePlan, id: string, count: number): Part[] {
  const ways = [
    [0, -1],
    [-1, 0],
    [0, 1],
    [1, 0],
  ] as const
  return ways.slice(0, count).map(([ux, uy], index) => {
    const startIn = POLE_WIDTH_IN / 2
    const zIn = Math.min(-BELOW_TOP_IN, hasArm(plan) ? armLevelIn(plan) - 8 : 0) - 4 * index
    return drawPart({
      id: count > 1 ? `${id}-wire-${index + 1}` : `${id}-wire`,
      label: 'down guy',
      kind: 'guy',
      potential: 'grounded',
      from: [ux * startIn, uy * startIn, zIn],
      to: [ux * (startIn + DRAWN_IN), uy * (startIn + DRAWN_IN), zIn - DRAWN_IN],
      widthIn: 0.5,
    })
  })
}
