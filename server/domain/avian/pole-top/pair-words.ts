import { inchesOfMetres } from '#domain/units/length.ts'
import type { ContactPair } from './contact-pair.ts'

/** Keeps a gap that is 44 in to the last bit from being cut to 43 in. */
const ROUNDING = 1e-6

/**
 * "red-tailed hawk: A-phase cutout top to bracket, 14 in". The gap is cut and not rounded, so that
 * one short of guidance never reads as if it reached it.
 */
export function pairInWords(pair: ContactPair, speciesName: string, inInches: boolean): string {
  const from = pair.partA.label
  const gap = inInches
    ? `${Math.floor(inchesOfMetres(pair.distanceM) + ROUNDING)} in`
    : `${Math.floor(pair.distanceM * 100 + ROUNDING)} cm`
  return `${speciesName}: ${from} to ${withoutShared(from, pair.partB.label)}, ${gap}`
}

/** The second label without the words that both begin with; whole where nothing would be left. */
function withoutShared(first: string, second: string): string {
  const words = second.split(' ')
  const shared = first.split(' ')
  let count = 0
  while (count < words.length - 1 && words[count] === shared[count]) count++
  return words.slice(count).join(' ')
}
