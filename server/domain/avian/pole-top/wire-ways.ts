import type { Phase } from '#domain/units/phases.ts'
import { drawWire, type PointIn } from './draw-part.ts'
import { type Feed, feedsTap } from './hung-equipment.ts'
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

/** A wire that crosses to the other side of the pole passes so far before those that do not. */
const CROSSING_OUT_IN = 12

/** From the conductor in front of the pole: down past the arm, then across. Empty where there is none. */
export function leadFromLine(rig: Rig, id: string, phase: Phase, to: string, end: PointIn): Part[] {
  const start = rig.inFront(phase)
  if (!start) return []
  const [x, y, z] = start
  const outIn = x * end[0] < 0 ? CROSSING_OUT_IN : 2
  return jumper(id, phase, to, [start, [x, y + outIn, dropLevelIn(rig, z)], end])
}

/** So far from the pole's axis a wire passes it. */
const BESIDE_POLE_IN = 16
/** What stands before the pole is left upwards first, clear of its neighbours. */
const RISE_IN = 14

function rise([x, y, z]: PointIn): PointIn {
  return [x, y, z + RISE_IN]
}

/**
 * Back to the conductor behind the pole, past its side. Empty where the line ends here.
 *
 * @param passes Whether it turns to the back above what it comes from or below.
 */
export function leadToLine(
  rig: Rig,
  id: string,
  phase: Phase,
  to: string,
  start: PointIn,
  passes: 'above' | 'below' = 'above',
): Part[] {
  const end = rig.behind(phase)
  if (!end) return []
  const [x, y, z] = end
  const besideIn = sideWay(rig, start[0], x)
  const isMiddle = Math.abs(besideIn) === BESIDE_POLE_IN
  return jumper(id, phase, to, [
    start,
    ...(isMiddle && passes === 'above' ? [rise(start)] : []),
    [besideIn, 2, passes === 'above' ? turnLevelIn(rig, start[2], z, besideIn) : start[2] - 2],
    [x, y < 0 ? y - 2 : y, dropLevelIn(rig, z)],
    end,
  ])
}

/** Where a wire passes the pole: beside its own bracket, or around the pole where it stands before it. */
function sideWay({ plan }: Rig, startIn: number, endIn: number): number {
  if (Math.abs(startIn) >= BESIDE_POLE_IN)
    return startIn + Math.sign(startIn) * (BESIDE_POLE_IN / 2)
  if (Math.abs(endIn) >= BESIDE_POLE_IN) return 2 * Math.sign(endIn) * BESIDE_POLE_IN
  return plan.hung.hasTap ? -BESIDE_POLE_IN : BESIDE_POLE_IN
}

/** Above what the wire comes from; to the right also above a tap that leaves there. */
function turnLevelIn(rig: Rig, startIn: number, endIn: number, besideIn: number): number {
  const turnIn = Math.max(startIn + RISE_IN, (startIn + dropLevelIn(rig, endIn)) / 2)
  const [tapped] = rig.plan.tapPhases
  const tapIn = tapped && besideIn > 0 ? rig.tap(tapped)?.[2] : undefined
  return tapIn === undefined ? turnIn : Math.max(turnIn, tapIn + RISE_IN + 2)
}

/** From the load side of a cutout or recloser to the tap that leaves here, or back to the line. */
export function leadOnward(
  rig: Rig,
  id: string,
  feed: Feed,
  start: PointIn,
  passes: 'above' | 'below',
): Part[] {
  const { phase } = feed
  const tap = feedsTap(feed, rig.plan.tapPhases) ? rig.tap(phase) : null
  return tap
    ? jumper(id, phase, 'tap', [start, ...wayToTap(start, tap), tap])
    : leadToLine(rig, id, phase, 'line', start, passes)
}

/** A wire to the far side of a tap passes so far under its other phases. */
const UNDER_TAP_IN = 14

/** Clear of the pole and of the wires of the other phases. */
function wayToTap([x, y, z]: PointIn, [tapX, tapY, tapZ]: PointIn): PointIn[] {
  const underIn = Math.min(z, tapZ) - UNDER_TAP_IN
  const halfwayIn = (z + tapZ) / 2
  if (tapY < 0 && x > BESIDE_POLE_IN) {
    return [
      [tapX, y, underIn],
      [tapX, tapY / 2, underIn],
    ]
  }
  if (tapY < 0) {
    return [
      [-1.4 * BESIDE_POLE_IN, 0, halfwayIn - 6],
      [0, -1.8 * BESIDE_POLE_IN, halfwayIn],
    ]
  }
  if (x >= BESIDE_POLE_IN) return []
  return Math.abs(x) < BESIDE_POLE_IN
    ? [rise([x, y, z]), [1.3 * BESIDE_POLE_IN, (y + tapY) / 2, halfwayIn + RISE_IN / 2]]
    : [[x, y + 12, Math.min(z, tapZ) + 2]]
}
