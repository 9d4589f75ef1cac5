import type { Slot } from './cutout-parts.ts'
import { cutoutBottom } from './cutout-parts.ts'
import type { PointIn } from './draw-part.ts'
import type { Feed } from './hung-equipment.ts'
import type { Part } from './part.ts'
import { lidLevelIn, type Rig, sideOf } from './rig.ts'
import {
  bushingParts,
  TRANSFORMER_TANK,
  tankArresterParts,
  tankOutIn,
  tankPart,
} from './tank-parts.ts'
import { jumper, leadFromLine, leadToLine } from './wire-ways.ts'

/** Line terminal of an arrester on the tank, from the tank's wall. */
const ARRESTER_OFF_IN = 6

/**
 * One unit of a transformer: tank, bushing, arrester if it has one, and the jumper that runs from its
 * cutout by way of the arrester to the bushing, or from the line where it has no cutout.
 *
 * @param place Which of how many units on the pole, from left to right.
 */
export function transformerUnitParts(
  rig: Rig,
  feed: Feed,
  slot: Slot | null,
  place: { readonly index: number; readonly count: number },
): Part[] {
  const { phase, fed, arrester } = feed
  if (fed?.kind !== 'transformer') return []
  const id = `${fed.id}-${phase}`
  const name = `${phase}-phase transformer`
  const lid = lidAt(rig, place, Math.sign(slot?.at[0] ?? 0) || sideOf(rig, feed))
  const [x, y, z] = lid
  const bushing: PointIn = [x, y, z + rig.plan.dimensions.bushingIn]
  const from = slot ? cutoutBottom(slot) : rig.inFront(phase)
  const arresterAt = arrester && arresterPlace(lid, from)
  const through = [arresterAt, bushing]
  const isInSeries = fed.span !== undefined
  const low: PointIn = [x, y - 5, z + rig.plan.dimensions.bushingIn]
  return [
    tankPart(`${id}-tank`, `${name} tank`, lid, TRANSFORMER_TANK),
    ...bushingParts(`${id}-bushing`, `${name} bushing`, phase, bushing, z),
    ...(arrester && arresterAt
      ? tankArresterParts(`${arrester.id}-${phase}`, phase, `${name} arrester`, arresterAt)
      : []),
    ...(slot
      ? jumper(`${id}-lead`, phase, 'transformer', [cutoutBottom(slot), ...through])
      : [
          ...leadFromLine(rig, `${id}-lead`, phase, 'transformer', arresterAt ?? bushing),
          ...(arresterAt ? jumper(`${id}-lead-on`, phase, 'transformer', through) : []),
        ]),
    ...(isInSeries
      ? [
          ...bushingParts(`${id}-low`, `${name} low-side bushing`, phase, low, z),
          ...leadToLine(rig, `${id}-low-lead`, phase, 'line', low),
        ]
      : []),
  ]
}

/** One hangs beside the pole; two on either side; of three the middle one hangs in front. */
function lidAt(
  rig: Rig,
  { index, count }: { readonly index: number; readonly count: number },
  side: number,
): PointIn {
  const z = lidLevelIn(rig)
  const outIn = tankOutIn(TRANSFORMER_TANK)
  if (count === 1) return [side * outIn, 0, z]
  if (count === 2) return [index === 0 ? -outIn : outIn, 0, z]
  const bankIn = outIn + 3
  const round: readonly PointIn[] = [
    [-bankIn, 0, z],
    [0, bankIn, z],
    [bankIn, 0, z],
  ]
  return round[index % 3] ?? [0, -bankIn, z - 50 * Math.floor(index / 3)]
}

/** On the side of the tank from which the jumper comes. */
function arresterPlace([x, y, z]: PointIn, from: PointIn | null): PointIn {
  const away: PointIn = from ?? [x, y + 1, z]
  const [dx, dy] = [away[0] - x, away[1] - y]
  const length = Math.hypot(dx, dy) || 1
  const outIn = TRANSFORMER_TANK.widthIn / 2 + ARRESTER_OFF_IN
  return [x + (dx / length) * outIn, y + (dy / length) * outIn, z + 2]
}
