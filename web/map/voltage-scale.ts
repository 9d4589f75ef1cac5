import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { Theme } from '../state/theme.ts'

/** One class of the scale, on the 120 V base: from (included) up to (excluded), unless it is a limit. */
export interface VoltageClass {
  readonly fromVolts120: number
  readonly toVolts120: number
  readonly colour: string
  /** Outside limits: drawn with a dashed (low) or dotted (high) casing too. */
  readonly side: 'low' | 'in' | 'high'
}

/**
 * Cool for low, warm for high, paper-grey between: blue against orange stays apart under every
 * common colour blindness, and lightness falls toward both ends besides.
 */
const COLOURS: Record<Theme, readonly string[]> = {
  light: ['#08305c', '#1763a6', '#4791cd', '#748f9d', '#8b8675', '#a88347', '#c4620f', '#7f2f04'],
  dark: ['#d3ecff', '#8cc9fa', '#4c9fe0', '#66869a', '#807c6e', '#9d8055', '#eb8d3b', '#ffcb96'],
}

/** Volts below the low limit, and above the high one, at which the colour changes again. */
const LOW_STEP_V = 3
const HIGH_STEP_V = 2

/**
 * Eight classes whose breaks are the limits, steps outside them and a neutral band around 120 V.
 * The band keeps inside the limits, wherever they lie.
 */
export function voltageScale(limits: VoltageLimits, theme: Theme): VoltageClass[] {
  const { lowVolts120: low, highVolts120: high } = limits
  const width = high - low
  const breaks = [
    low - 2 * LOW_STEP_V,
    low - LOW_STEP_V,
    low,
    clamp(119.5, low + 0.15 * width, low + 0.45 * width),
    clamp(122.5, low + 0.5 * width, high - 0.2 * width),
    high,
    high + HIGH_STEP_V,
  ]
  return COLOURS[theme].map((colour, index) => ({
    fromVolts120: breaks[index - 1] ?? Number.NEGATIVE_INFINITY,
    toVolts120: breaks[index] ?? Number.POSITIVE_INFINITY,
    colour,
    side: index < 3 ? 'low' : index > 5 ? 'high' : 'in',
  }))
}

/** Class of a voltage. A voltage on a limit, to the microvolt, is inside it. */
export function classOf(scale: readonly VoltageClass[], volts120: number): VoltageClass {
  const found = scale.find(({ toVolts120, side }) =>
    side === 'low' ? volts120 < toVolts120 - ON_LIMIT_V : volts120 <= toVolts120 + ON_LIMIT_V,
  )
  const last = scale.at(-1)
  if (!last) throw new Error('Expected a scale with classes.')
  return found ?? last
}

const ON_LIMIT_V = 1e-6

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value))
}
