import type { BirdSettings } from '../bird-settings.ts'
import { isElectrode } from '../pole-top/part.ts'
import type { PoleTop } from '../pole-top/pole-top.ts'

/** Read off the drawing of a pole top. */
export interface IndexInputs {
  readonly phases: number
  readonly jumpers: number
  readonly isGrounded: boolean
}

export type IndexClass = 'high risk' | 'below high risk'

/** At and above it a pole counts as high risk: Mojica, Eccleston and Harness 2021 (abstract seen). */
export const HIGH_RISK_INDEX = 0.4

export const INDEX_SOURCE =
  'Form and inputs: Dwyer, Harness and Donohue, Conservation Biology 28, 2014, 159–168, as later papers describe it. High risk from 0.40: Mojica, Eccleston and Harness, Journal of Fish and Wildlife Management, 2021. It ranks poles against each other and is no chance of a death. Ground cover, its fourth input (from memory), is not asked for here.'

export type IndexCoefficients = NonNullable<BirdSettings['publishedIndex']>

/**
 * Class of a pole by the published index, only where somebody entered its coefficients from the
 * paper: none are shipped. The figure itself is not given, since it is no chance of anything.
 */
export function publishedIndexClass(
  inputs: IndexInputs,
  coefficients: IndexCoefficients | undefined,
): IndexClass | null {
  if (!coefficients) return null
  const { intercept, perPhase, perJumper, grounded } = coefficients
  const sum =
    intercept +
    perPhase * inputs.phases +
    perJumper * inputs.jumpers +
    (inputs.isGrounded ? grounded : 0)
  return 1 / (1 + Math.exp(-sum)) >= HIGH_RISK_INDEX ? 'high risk' : 'below high risk'
}

export function indexInputs({ parts }: PoleTop): IndexInputs {
  const phases = parts.filter(({ potential }) => /^[ABC]$/.test(potential))
  return {
    phases: new Set(phases.map(({ potential }) => potential)).size,
    jumpers: parts.filter(({ kind }) => kind === 'jumper').length,
    isGrounded: parts.some((part) => part.potential === 'grounded' && isElectrode(part)),
  }
}
