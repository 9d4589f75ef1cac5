import { inchesOfMetres } from '#domain/units/length.ts'
import type { Units } from '../state/address.ts'

/** Keeps a gap that is 44 in to the last bit from being cut to 43 in. */
const ROUNDING = 1e-6

/** A gap, cut and not rounded, so that one short of guidance never reads as if it reached it. */
export function gapInUnits(lengthM: number, units: Units): string {
  return units === 'us'
    ? `${Math.floor(inchesOfMetres(lengthM) + ROUNDING)} in`
    : `${Math.floor(lengthM * 100 + ROUNDING)} cm`
}
