import type { Phase } from '#domain/units/phases.ts'
import type { PointIn } from './draw-part.ts'
import { type Feed, isOfLine } from './hung-equipment.ts'
import type { PolePlan } from './pole-plan.ts'
import { armLevelIn, hasArm, type Support, takeOffBehind, takeOffInFront } from './supports.ts'
import { TAP_BELOW_LINE_IN } from './usual-dimensions.ts'

/** Where equipment finds the conductors of its pole. */
export interface Rig {
  readonly plan: PolePlan
  /** Phases from left to right, as equipment on an arm follows them. */
  readonly leftToRight: readonly Phase[]
  /** Where a wire is clamped on in front of the pole; null for a phase that the pole does not carry. */
  readonly inFront: (phase: Phase) => PointIn | null
  /** The same behind it; null too where the line ends here. */
  readonly behind: (phase: Phase) => PointIn | null
  /** Where the tap of a phase begins; null where none leaves. */
  readonly tap: (phase: Phase) => PointIn | null
}

export function rigOf(
  plan: PolePlan,
  supports: readonly Support[],
  tapStarts: ReadonlyMap<Phase, PointIn>,
): Rig {
  const byPhase = new Map(supports.map((support) => [support.phase, support]))
  const at =
    <Found>(find: (support: Support) => Found) =>
    (phase: Phase) => {
      const support = byPhase.get(phase)
      return support ? find(support) : null
    }
  return {
    plan,
    leftToRight: leftToRight(supports),
    inFront: at((support) => takeOffInFront(plan, support)),
    behind: at((support) => takeOffBehind(plan, support)),
    tap: (phase) => tapStarts.get(phase) ?? null,
  }
}

/**
 * By where they stand. Where they hang one below the other the lowest goes to the middle, so that the
 * wires of the others pass beside it.
 */
function leftToRight(supports: readonly Support[]): Phase[] {
  const [first, second, third] = supports
  if (first && second && third && supports.every(({ hold }) => hold === 'corner')) {
    return [first.phase, third.phase, second.phase]
  }
  return [...supports].sort((one, other) => one.at[0] - other.at[0]).map(({ phase }) => phase)
}

/**
 * Side on which a single piece hangs: that of its conductor, right of the pole for one above it. A tap
 * leaves to the right, so that its cutout hangs there and what the middle phase feeds to the left.
 */
export function sideOf({ plan, inFront }: Rig, feed: Feed): -1 | 1 {
  if (plan.hung.hasTap && isOfLine(feed)) return 1
  const acrossIn = inFront(feed.phase)?.[0] ?? 0
  return acrossIn < 0 || (plan.hung.hasTap && acrossIn === 0) ? -1 : 1
}

/** Height of the brackets of cutouts and arresters, inches. */
export function bracketLevelIn({ plan }: Rig): number {
  return -plan.dimensions.bracketBelowTopIn
}

/** The same of what belongs to the line: above the tap, where other equipment hangs below it. */
export function lineBracketLevelIn(rig: Rig): number {
  const { hasTap, hasTanks } = rig.plan.hung
  return bracketLevelIn(rig) + (hasTap && hasTanks ? TAP_BELOW_LINE_IN : 0)
}

/** Height of the lids of tanks, inches. */
export function lidLevelIn({ plan }: Rig): number {
  return -plan.dimensions.lidBelowTopIn
}

/** Height to which a wire falls from its conductor before it turns to the side: past the arm. */
export function dropLevelIn({ plan }: Rig, fromIn: number): number {
  return hasArm(plan) ? Math.min(fromIn - 4, armLevelIn(plan) - 2) : fromIn - 6
}
