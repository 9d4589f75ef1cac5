import { equipmentArm, onArm } from './bracket-slots.ts'
import { arresterTop, bracketPart, cutoutBottom, type Slot } from './cutout-parts.ts'
import { drawPart, type PointIn } from './draw-part.ts'
import type { Feed } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { bracketLevelIn, type Rig } from './rig.ts'
import { jumper, leadFromLine } from './wire-ways.ts'

/** Bracket of the cable's end below that of its cutout. */
const TERMINATOR_BELOW_IN = 40
const TERMINATOR_IN = 18

/** The end of a cable: terminator on a bonded bracket, fed from its cutout, its arrester or the line. */
export function riserPhaseParts(
  rig: Rig,
  { phase, fed }: Feed,
  slot: Slot | null,
  arresterSlot: Slot | null,
): Part[] {
  if (!fed) return []
  const id = `${fed.id}-${phase}`
  const name = `${phase}-phase terminator`
  const place = terminatorSlot(rig, slot ?? arresterSlot)
  const [x, y, z] = place.at
  const top: PointIn = [x, y, z + TERMINATOR_IN]
  const arresterAt = arresterSlot && arresterTop(arresterSlot)
  const cutoutAt = slot && cutoutBottom(slot)
  return [
    bracketPart(`${id}-bracket`, `${name} bracket`, place),
    drawPart({
      id: `${id}-body`,
      label: `${name} body`,
      kind: 'insulator',
      potential: 'none',
      from: [x, y, z + 2],
      to: [x, y, z + TERMINATOR_IN - 1],
      widthIn: 4,
    }),
    drawPart({
      id: `${id}-top`,
      label: `${name} top`,
      kind: 'terminator',
      potential: phase,
      from: top,
      widthIn: 2,
    }),
    ...(cutoutAt || arresterAt
      ? jumper(`${id}-lead`, phase, 'riser', [cutoutAt ?? arresterAt, top])
      : leadFromLine(rig, `${id}-lead`, phase, 'riser', top)),
  ]
}

/** Carries the ends of cables where the cutouts above them stand on an arm as well. */
export function terminatorArm(rig: Rig, riserId: string): Part {
  return equipmentArm(rig, `${riserId}-arm`, 'riser arm', terminatorLevelIn(rig))
}

function terminatorLevelIn(rig: Rig): number {
  return bracketLevelIn(rig) - TERMINATOR_BELOW_IN
}

function terminatorSlot(rig: Rig, above: Slot | null): Slot {
  const zIn = terminatorLevelIn(rig)
  if (!above) return onArm(0, zIn)
  const { from, at } = above
  return { from: [from[0], from[1], zIn], at: [at[0], at[1], zIn], canPerch: above.canPerch }
}
