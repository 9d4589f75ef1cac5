import type { Sweep } from '#domain/electrical/sweep.ts'

/**
 * Power lost in all series impedances as solved last, watts: Re Σ Iᴴ Z I. Charging is lossless here,
 * so this is the whole loss of the line.
 */
export function lineLossW({ network, state }: Sweep): number {
  const { nodeCount, zOhm: z } = network
  const { currentA: c } = state
  let lossW = 0
  for (let branch = 1; branch < nodeCount; branch += 1) {
    for (let row = 0; row < 6; row += 2) {
      const re = c[branch * 6 + row] as number
      const im = c[branch * 6 + row + 1] as number
      if (re === 0 && im === 0) continue
      const at = branch * 18 + row * 3
      let dropRe = 0
      let dropIm = 0
      for (let column = 0; column < 6; column += 2) {
        const r = z[at + column] as number
        const x = z[at + column + 1] as number
        const otherRe = c[branch * 6 + column] as number
        const otherIm = c[branch * 6 + column + 1] as number
        dropRe += r * otherRe - x * otherIm
        dropIm += r * otherIm + x * otherRe
      }
      lossW += dropRe * re + dropIm * im
    }
  }
  return lossW
}
