import { inchesOfMetres } from '#domain/units/length.ts'
import type { Pole } from '../../feeder/pole.ts'
import type { Dimension, Framing } from './framing.ts'
import type { PoleTopChoice } from './pole-top-choice.ts'

/** Inches, by the name of the dimension without its unit. */
export type DimensionsIn = Readonly<
  Record<Dimension extends `${infer Name}M` ? `${Name}In` : never, number>
>

/** From the pin at the end of an arm to the end of the arm. */
export const PIN_INSET_IN = 4

/** What the usual dimensions of equipment go by. */
export interface Hung {
  readonly regulators: 'platform' | 'on the pole' | null
  /** Tanks, or the ends of cables, which reach as low. */
  readonly hasTanks: boolean
  readonly hasTap: boolean
}

const USUAL_ARM_FT = 8
const TOP_PIN_IN = 10

/**
 * Inches of a framing before anything measured replaces them. Common practice, no source, but for
 * the 44 in between the phases of an 8-ft arm and the 20 degrees from outer to middle phase (16 in
 * down at 44 in), which are read from a utility's published drawing (Colorado DRMS document 1291909,
 * p. 13).
 */
export function usualDimensions(
  framing: Framing,
  phaseCount: number,
  armFt: number | null,
  { regulators, hasTanks, hasTap }: Hung,
): DimensionsIn {
  const topPinIn = framing === 'flat arm' ? 6 : TOP_PIN_IN
  const outerDropIn = framing === 'flat arm' || framing === 'two-phase arm' ? 0 : 16
  const armPinIn = 8
  const verticalStepIn = 40
  const lowestPhaseIn = lowestPhaseBelowTopIn(framing, phaseCount, verticalStepIn)
  const lineIn = lowestPhaseIn + (hasTap && hasTanks ? TAP_BELOW_LINE_IN : 0)
  const bracketBelowTopIn = lineIn + (framing === 'vertical corner' ? 44 : 24)
  const lidBelowTopIn = bracketBelowTopIn + LID_BELOW_BRACKET_IN[regulators ?? 'none']
  return {
    outerPhaseIn: ((armFt ?? USUAL_ARM_FT) * 12) / 2 - PIN_INSET_IN,
    middlePhaseIn: 0,
    topPinIn: framing === 'two-phase arm' ? 6 : topPinIn,
    outerDropIn,
    armPinIn,
    verticalStepIn,
    neutralBelowTopIn: hasTanks
      ? lidBelowTopIn + 48
      : lowestPhaseIn + (hasTap ? TAP_BELOW_LINE_IN + 40 : 50),
    bracketBelowTopIn,
    lidBelowTopIn,
    bushingIn: 9,
  }
}

/** A tap ends so far below the arm, or below the lowest phase of a pole without one. */
export const TAP_BELOW_LINE_IN = 38

/** Above the lids of regulators there must be room for their switches. */
const LID_BELOW_BRACKET_IN = { none: 26, platform: 66, 'on the pole': 46 } as const

/** Uppermost phase of those that hang at the pole itself. */
export const FIRST_VERTICAL_BELOW_TOP_IN = 8
/** Arm of a dead-end, or arm below the pole top where a phase stands on the pole top. */
const ARM_BELOW_TOP_IN = 14

function lowestPhaseBelowTopIn(framing: Framing, phaseCount: number, stepIn: number): number {
  if (framing === 'vertical corner') {
    return FIRST_VERTICAL_BELOW_TOP_IN + Math.max(0, phaseCount - 1) * stepIn
  }
  if (framing === 'pole-top pin') return Math.max(0, (phaseCount - 1) * stepIn - TOP_PIN_IN)
  return framing === 'single-phase dead-end' ? FIRST_VERTICAL_BELOW_TOP_IN : ARM_BELOW_TOP_IN
}

/**
 * What the record of the pole measured between phases, as dimensions of its framing. On an arm the
 * distance across is that of neighbours: from the middle to an outer one, or between the two.
 */
export function recordedDimensions(
  pole: Pole,
  framing: Framing,
  phaseCount: number,
): Partial<DimensionsIn> {
  const { phaseToPhaseHorizontalM: acrossM, phaseToPhaseVerticalM: downM } = pole
  if (phaseCount < 2) return {}
  const downIn = downM === undefined ? undefined : inchesOfMetres(downM)
  if (framing === 'vertical corner') {
    return downIn !== undefined && downIn > 0 ? { verticalStepIn: downIn } : {}
  }
  const isPair = phaseCount === 2
  return {
    ...(acrossM !== undefined &&
      acrossM > 0 && { outerPhaseIn: inchesOfMetres(acrossM) / (isPair ? 2 : 1) }),
    ...(downIn !== undefined && framing === 'arm and pole-top pin' && { outerDropIn: downIn }),
  }
}

export function measuredDimensions(choice: PoleTopChoice | null): Partial<DimensionsIn> {
  return Object.fromEntries(
    Object.entries(choice?.measured ?? {}).flatMap(([name, valueM]) =>
      valueM === undefined ? [] : [[name.replace(/M$/, 'In'), inchesOfMetres(valueM)]],
    ),
  )
}
