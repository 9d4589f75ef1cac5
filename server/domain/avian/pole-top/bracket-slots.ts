import type { Slot } from './cutout-parts.ts'
import { drawPart } from './draw-part.ts'
import type { Feed } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { type Rig, sideOf } from './rig.ts'
import { ARM_OUT_IN, POLE_WIDTH_IN } from './supports.ts'

/** On a bracket of its own a cutout stands so far from the pole's axis. */
const BRACKET_OUT_IN = 16
/** Outermost place on the arm for equipment. */
const ARM_REACH_IN = 36
const EQUIPMENT_ARM_OUT_IN = ARM_OUT_IN + 2

/** One or two cutouts stand on brackets of the pole; more are carried by an arm of their own. */
export interface SlotRow {
  readonly slots: readonly Slot[]
  /** The arm that carries them, if any. */
  readonly arm: readonly Part[]
}

/** A height at which brackets stand, and what an arm there is called. */
export interface Row {
  readonly zIn: number
  readonly armId: string
  readonly armLabel: string
}

/** Places for as many pieces as stand on brackets, from left to right. */
export function bracketSlots(rig: Rig, standing: readonly Feed[], row: Row): SlotRow {
  const { zIn, armId, armLabel } = row
  const [only] = standing
  if (!needsArm(standing)) {
    const sides = standing.length === 2 ? [-1, 1] : only ? [sideOf(rig, only)] : []
    return { slots: sides.map((side) => onPole(side, zIn)), arm: [] }
  }
  const stepIn = (2 * ARM_REACH_IN) / (standing.length - 1)
  return {
    slots: standing.map((_, index) => onArm(-ARM_REACH_IN + index * stepIn, zIn)),
    arm: [equipmentArm(rig, armId, armLabel, zIn)],
  }
}

/** More than two are carried by an arm of their own. */
export function needsArm(standing: readonly Feed[]): boolean {
  return standing.length > 2
}

/** The same place for another piece beside it, away from the pole. */
export function beside({ from, at, canPerch }: Slot, offsetIn: number): Slot {
  const side = at[0] < 0 ? -1 : 1
  const to = at[0] + side * offsetIn
  return {
    from: canPerch ? [from[0], from[1], from[2]] : [to, from[1], from[2]],
    at: [to, at[1], at[2]],
    canPerch,
  }
}

function onPole(side: number, zIn: number): Slot {
  return {
    from: [(side * POLE_WIDTH_IN) / 2, 3, zIn],
    at: [side * BRACKET_OUT_IN, 12, zIn],
    canPerch: true,
  }
}

export function onArm(xIn: number, zIn: number): Slot {
  return {
    from: [xIn, EQUIPMENT_ARM_OUT_IN + 2, zIn],
    at: [xIn, EQUIPMENT_ARM_OUT_IN + 7, zIn],
    canPerch: false,
  }
}

export function equipmentArm({ plan }: Rig, id: string, label: string, zIn: number): Part {
  return drawPart({
    id,
    label: plan.armMaterial === 'wood' ? label : `${plan.armMaterial} ${label}`,
    kind: 'arm',
    potential: plan.armConducts ? 'grounded' : 'none',
    from: [-ARM_REACH_IN - 10, EQUIPMENT_ARM_OUT_IN, zIn],
    to: [ARM_REACH_IN + 10, EQUIPMENT_ARM_OUT_IN, zIn],
    widthIn: 3.5,
    canPerch: true,
  })
}
