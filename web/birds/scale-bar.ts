import { M_PER_FT } from '#domain/units/length.ts'
import type { Units } from '../state/address.ts'

export interface ScaleBar {
  readonly lengthM: number
  readonly words: string
}

/** Lengths that a person can picture, longest first. */
const STEPS: Readonly<Record<Units, readonly (readonly [words: string, lengthM: number])[]>> = {
  us: [
    ['4 ft', 4 * M_PER_FT],
    ['2 ft', 2 * M_PER_FT],
    ['1 ft', M_PER_FT],
  ],
  metric: [
    ['1 m', 1],
    ['50 cm', 0.5],
    ['20 cm', 0.2],
  ],
}

/** The longest bar that fits into this width. */
export function scaleBar(pxPerM: number, mostPx: number, units: Units): ScaleBar {
  const steps = STEPS[units]
  const [words, lengthM] =
    steps.find(([, step]) => step * pxPerM <= mostPx) ?? steps.at(-1) ?? (['1 m', 1] as const)
  return { words, lengthM }
}
