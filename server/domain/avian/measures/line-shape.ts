import type { Part } from '../pole-top/part.ts'
import type { PoleTop } from '../pole-top/pole-top.ts'

/** How the conductors stand, read off the parts; metres, as the dimensions of a framing. */
export interface LineShape {
  /** From the pole's axis to the farthest phase, across the line. */
  readonly outerPhaseM: number
  /** Highest phase above the pole top; below it where negative. */
  readonly topPinM: number
  /** Outer phases below the highest one. */
  readonly outerDropM: number
}

/** Null where no phase is carried on the pole. */
export function lineShape({ parts }: PoleTop): LineShape | null {
  const carried = parts.filter(isCarried)
  if (carried.length === 0) return null
  const outerPhaseM = Math.max(...carried.map(acrossM))
  const topPinM = Math.max(...carried.map(({ from }) => from[2]))
  const outer = carried.filter((part) => acrossM(part) > outerPhaseM - SAME_PLACE_M)
  const outerZ = Math.max(...outer.map(({ from }) => from[2]))
  return { outerPhaseM, topPinM, outerDropM: topPinM - outerZ }
}

const SAME_PLACE_M = 0.02

/** Conductors and clamps of the main line, which have their phase in front of their id; those of a tap do not. */
function isCarried({ id, kind }: Part): boolean {
  return (kind === 'conductor' || kind === 'dead-end clamp') && /^[ABC]-/.test(id)
}

function acrossM({ from }: Part): number {
  return Math.abs(from[0])
}
