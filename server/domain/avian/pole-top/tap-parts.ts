import type { Phase } from '#domain/units/phases.ts'
import { drawPart, type PointIn } from './draw-part.ts'
import { feedsOf, feedsTap } from './hung-equipment.ts'
import type { Part } from './part.ts'
import type { PolePlan } from './pole-plan.ts'
import {
  armLevelIn,
  DRAWN_CONDUCTOR_IN,
  hasArm,
  POLE_WIDTH_IN,
  STRING_IN,
  type Support,
  takeOffBehind,
  takeOffInFront,
} from './supports.ts'
import { TAP_BELOW_LINE_IN } from './usual-dimensions.ts'
import { jumper } from './wire-ways.ts'

/** Outer phases of a tap of several, along the main line. */
const OUTER_IN = 44
const TAP_ARM_OUT_IN = POLE_WIDTH_IN / 2 + 2

interface TapPhase {
  readonly phase: Phase
  readonly yIn: number
}

/** Where the wire to a tapped phase is clamped on, beyond its dead-end to the right of the pole. */
export function tapStarts(plan: PolePlan, supports: readonly Support[]): Map<Phase, PointIn> {
  const zIn = tapLevelIn(plan, supports)
  return new Map(
    tapOrder(plan, supports).map(({ phase, yIn }) => [phase, [clampIn(plan) + 7, yIn, zIn]]),
  )
}

/** Dead-ends of the tap, on an arm of their own where there are several. */
export function tapParts(plan: PolePlan, supports: readonly Support[]): Part[] {
  const zIn = tapLevelIn(plan, supports)
  const order = tapOrder(plan, supports)
  return [
    ...(order.length > 1 ? [tapArm(plan, zIn)] : []),
    ...order.flatMap(({ phase, yIn }) => deadEnd(plan, phase, yIn, zIn)),
  ]
}

/** From each conductor straight to its tap, where no cutout stands between. */
export function tapJumpers(
  plan: PolePlan,
  supports: readonly Support[],
  isFused: (phase: Phase) => boolean,
): Part[] {
  const starts = tapStarts(plan, supports)
  return supports.flatMap((support) => {
    const { phase } = support
    const end = starts.get(phase)
    if (!end || isFused(phase)) return []
    const behind = end[1] > 0 ? null : takeOffBehind(plan, support)
    const start = behind ?? takeOffInFront(plan, support)
    return jumper(`tap-${phase}-jumper`, phase, 'tap', [start, wayPoint(start, end), end])
  })
}

/** Beside the pole, a little above the tap, so that the wire passes neither pole nor arm. */
function wayPoint([x, y, z]: PointIn, end: PointIn): PointIn {
  const side = y < 0 ? -1 : 1
  const yIn = Math.abs(end[1]) > 20 ? (y + end[1]) / 2 : side * 20
  return [x > 0 ? x / 2 : x / 3 + 6, yIn, Math.min(z - 12, end[2] + 12)]
}

/**
 * The phase on the far side of the pole leaves in front, so that its wire passes before the others;
 * from a recloser, whose load side faces the pole, behind.
 */
function tapOrder({ tapPhases, equipment }: PolePlan, supports: readonly Support[]): TapPhase[] {
  const isFedByRecloser = feedsOf(equipment).some(
    (feed) => feed.fed?.kind === 'recloser' && feedsTap(feed, tapPhases),
  )
  const acrossIn = (phase: Phase) => supports.find((each) => each.phase === phase)?.at[0] ?? 0
  const ordered = [...tapPhases].sort((one, other) => acrossIn(one) - acrossIn(other))
  if (ordered.length === 1) return ordered.map((phase) => ({ phase, yIn: 0 }))
  if (isFedByRecloser) ordered.reverse()
  const places = ordered.length === 2 ? [OUTER_IN, -OUTER_IN] : [OUTER_IN, 0, -OUTER_IN]
  return ordered.map((phase, index) => ({ phase, yIn: places[index] ?? 0 }))
}

function tapLevelIn(plan: PolePlan, supports: readonly Support[]): number {
  const lineIn = hasArm(plan) ? armLevelIn(plan) : Math.min(0, ...supports.map(({ at }) => at[2]))
  return lineIn - TAP_BELOW_LINE_IN
}

function clampIn({ tapPhases }: PolePlan): number {
  return (tapPhases.length > 1 ? TAP_ARM_OUT_IN + 2 : POLE_WIDTH_IN / 2) + STRING_IN
}

function tapArm(plan: PolePlan, zIn: number): Part {
  return drawPart({
    id: 'tap-arm',
    label: plan.armMaterial === 'wood' ? 'tap arm' : `${plan.armMaterial} tap arm`,
    kind: 'arm',
    potential: plan.armConducts ? 'grounded' : 'none',
    from: [TAP_ARM_OUT_IN, -OUTER_IN - 4, zIn],
    to: [TAP_ARM_OUT_IN, OUTER_IN + 4, zIn],
    widthIn: 3.5,
    canPerch: true,
  })
}

function deadEnd(plan: PolePlan, phase: Phase, y: number, z: number): Part[] {
  const x = clampIn(plan)
  const name = `${phase}-phase tap`
  return [
    drawPart({
      id: `tap-${phase}-insulator`,
      label: `${name} dead-end insulator`,
      kind: 'insulator',
      potential: 'none',
      from: [x - STRING_IN, y, z],
      to: [x - 2, y, z],
      widthIn: 4,
    }),
    drawPart({
      id: `tap-${phase}-clamp`,
      label: `${name} dead-end clamp`,
      kind: 'dead-end clamp',
      potential: phase,
      from: [x, y, z],
      to: [x + 5, y, z],
      widthIn: 2,
    }),
    drawPart({
      id: `tap-${phase}-conductor`,
      label: `${name} conductor`,
      kind: 'conductor',
      potential: phase,
      from: [x + 5, y, z],
      to: [DRAWN_CONDUCTOR_IN, y, z],
      widthIn: 0.5,
    }),
  ]
}
