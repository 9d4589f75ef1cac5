import { cutoutBottom, type Slot } from './cutout-parts.ts'
import { drawPart, type PointIn } from './draw-part.ts'
import type { Feed } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { lidLevelIn, type Rig } from './rig.ts'
import { bushingParts, CAPACITOR_TANK, tankPart } from './tank-parts.ts'
import { jumper, leadFromLine } from './wire-ways.ts'

const UNIT_STEP_IN = 22
const RACK_OUT_IN = 16

/** One unit on the rack: two bushings, of which the second is joined to the neutral (grounded wye). */
export function capacitorUnitParts(
  rig: Rig,
  { phase, fed }: Feed,
  slot: Slot | null,
  { index, count }: { readonly index: number; readonly count: number },
): Part[] {
  if (!fed) return []
  const id = `${fed.id}-${phase}`
  const name = `${phase}-phase capacitor`
  const z = lidLevelIn(rig)
  const x = (index - (count - 1) / 2) * UNIT_STEP_IN
  const heightIn = rig.plan.dimensions.bushingIn
  const live: PointIn = [x, RACK_OUT_IN + 3.5, z + heightIn]
  return [
    tankPart(`${id}-tank`, `${name} tank`, [x, RACK_OUT_IN, z], CAPACITOR_TANK),
    ...bushingParts(`${id}-bushing`, `${name} bushing`, phase, live, z),
    ...bushingParts(
      `${id}-neutral`,
      `${name} neutral bushing`,
      'grounded',
      [x, RACK_OUT_IN - 3.5, z + heightIn],
      z,
    ),
    ...(slot
      ? jumper(`${id}-lead`, phase, 'capacitor', [cutoutBottom(slot), live])
      : leadFromLine(rig, `${id}-lead`, phase, 'capacitor', live)),
  ]
}

/** Frame of metal that carries the units, bonded. */
export function capacitorRackPart(rig: Rig, id: string, count: number): Part {
  const halfIn = (count * UNIT_STEP_IN) / 2
  const zIn = lidLevelIn(rig) - CAPACITOR_TANK.heightIn
  return drawPart({
    id: `${id}-rack`,
    label: 'capacitor rack',
    kind: 'bracket',
    potential: 'grounded',
    from: [-halfIn, RACK_OUT_IN, zIn],
    to: [halfIn, RACK_OUT_IN, zIn],
    widthIn: 10,
    canPerch: true,
  })
}
