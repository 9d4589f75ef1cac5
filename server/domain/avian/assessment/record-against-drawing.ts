import { inchesOfMetres } from '#domain/units/length.ts'
import type { Pole } from '../../feeder/pole.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'
import type { BirdSize } from '../species/bird-species.ts'

/** A record that is no more than that much tighter agrees with the drawing: what a tape leaves open. */
const SAME_SHARE = 0.05

/**
 * Says where a separation from phase to ground, measured on the pole, is tighter than anything that
 * the drawing shows. A record with one of the two figures missing proves nothing.
 */
export function recordAgainstDrawing(
  { phaseToGroundHorizontalM: acrossM, phaseToGroundVerticalM: upM }: Pole,
  framed: readonly ContactPair[],
  { breadthM, heightM }: BirdSize,
): string[] {
  if (acrossM === undefined || upM === undefined) return []
  const share = Math.max(Math.hypot(acrossM, upM) / breadthM, upM / heightM)
  const drawn = framed.find(isToGround)
  if (share >= 1 || share > (drawn?.share ?? 1) - SAME_SHARE) return []
  const shown = drawn
    ? `the drawing shows no less than ${gap(drawn.horizontalM, drawn.verticalM)}`
    : 'the drawing shows none that a bird of the design size could bridge'
  return [
    `The record has ${gap(acrossM, upM)} between a phase and something grounded; ${shown}. Measure the pole top and correct the drawing.`,
  ]
}

function isToGround({ partA, partB }: ContactPair): boolean {
  return partA.potential === 'grounded' || partB.potential === 'grounded'
}

function gap(acrossM: number, upM: number): string {
  return `${lengthInWords(acrossM)} across and ${lengthInWords(upM)} up and down`
}

/** "14 in (0.36 m)" */
function lengthInWords(lengthM: number): string {
  return `${inchesOfMetres(lengthM).toFixed(0)} in (${lengthM.toFixed(2)} m)`
}
