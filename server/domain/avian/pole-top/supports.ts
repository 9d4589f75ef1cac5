import type { Phase } from '#domain/units/phases.ts'
import type { PointIn } from './draw-part.ts'
import type { PolePlan } from './pole-plan.ts'
import { FIRST_VERTICAL_BELOW_TOP_IN } from './usual-dimensions.ts'

/**
 * How a conductor is held: on a pin that stands on the pole top or on the arm, on a post that stands
 * out from the pole, ended in front, ended in front and behind, or ended in front and to the side.
 */
export type Hold = 'pin' | 'post' | 'dead-end' | 'double dead-end' | 'corner'

export interface Support {
  readonly phase: Phase
  /** Where the conductor is, or would be, at the pole. */
  readonly at: PointIn
  readonly hold: Hold
}

export const POLE_WIDTH_IN = 9
/** Axis of an arm in front of the pole's. */
export const ARM_OUT_IN = 6.5
/** Insulator of a dead-end with its hardware, from the arm or pole to the clamp. */
export const STRING_IN = 20
/** On either side of the pole as much conductor is drawn as the largest bird spans. */
export const DRAWN_CONDUCTOR_IN = 72

/** Top of the arm above the pole top, inches. */
export function armLevelIn({ dimensions }: PolePlan): number {
  const { topPinIn, outerDropIn, armPinIn } = dimensions
  return topPinIn - outerDropIn - armPinIn
}

export function hasArm({ framing }: PolePlan): boolean {
  return framing.includes('arm')
}

/** Where each phase is carried, in the order of the plan. */
export function supportsOf(plan: PolePlan): Support[] {
  const { framing, phases, dimensions } = plan
  const { topPinIn, outerDropIn, verticalStepIn } = dimensions
  const below = (index: number) => FIRST_VERTICAL_BELOW_TOP_IN + index * verticalStepIn
  return phases.map((phase, index): Support => {
    const acrossIn = across(plan, index)
    switch (framing) {
      case 'pole-top pin':
        return index === 0
          ? { phase, at: [0, 0, topPinIn], hold: 'pin' }
          : {
              phase,
              at: [sideOf(index) * POST_IN, 0, topPinIn - index * verticalStepIn],
              hold: 'post',
            }
      case 'single-phase dead-end':
        return { phase, at: [0, 0, -below(index)], hold: 'dead-end' }
      case 'vertical corner':
        return { phase, at: [0, 0, -below(index)], hold: 'corner' }
      case 'dead-end arm':
        return { phase, at: [acrossIn, 0, armLevelIn(plan)], hold: 'dead-end' }
      case 'double dead-end arm':
        return { phase, at: [acrossIn, 0, armLevelIn(plan)], hold: 'double dead-end' }
      default: {
        const onTop = framing === 'arm and pole-top pin' && acrossIn === 0
        return { phase, at: [acrossIn, 0, onTop ? topPinIn : topPinIn - outerDropIn], hold: 'pin' }
      }
    }
  })
}

/** From the pole's axis to a conductor on a post that stands out from the pole. */
const POST_IN = 18

function sideOf(index: number): number {
  return index % 2 === 1 ? 1 : -1
}

/** Two at the ends, three with the middle one between; a single phase stands in the middle. */
function across({ phases, framing, dimensions }: PolePlan, index: number): number {
  const { outerPhaseIn, middlePhaseIn } = dimensions
  if (phases.length === 1) return framing === 'arm and pole-top pin' ? 0 : outerPhaseIn
  if (phases.length === 2) return index === 0 ? -outerPhaseIn : outerPhaseIn
  const onTop = framing === 'arm and pole-top pin'
  return [-outerPhaseIn, onTop ? 0 : middlePhaseIn, outerPhaseIn][index] ?? 0
}

/** Distance from the pole at which wires are clamped onto a conductor. */
const TAKE_OFF_IN = 14

/** Where the string of a dead-end begins. */
export function stringStartIn(plan: PolePlan): number {
  return hasArm(plan) ? ARM_OUT_IN + 2 : POLE_WIDTH_IN / 2
}

/** Where a wire is clamped onto the conductor in front of the pole. */
export function takeOffInFront(plan: PolePlan, { at: [x, , z], hold }: Support): PointIn {
  const isEnded = hold !== 'pin' && hold !== 'post'
  return [x, isEnded ? stringStartIn(plan) + STRING_IN + 6 : TAKE_OFF_IN, z]
}

/** The same behind the pole, or at the other end of a corner; null where the line ends at the pole. */
export function takeOffBehind(plan: PolePlan, { at: [x, , z], hold }: Support): PointIn | null {
  const beyondIn = stringStartIn(plan) + STRING_IN + 6
  switch (hold) {
    case 'pin':
    case 'post':
      return [x, -TAKE_OFF_IN, z]
    case 'double dead-end':
      return [x, -beyondIn, z]
    case 'corner':
      return [beyondIn, 0, z]
    case 'dead-end':
      return null
  }
}
