import type { Pole } from '#domain/feeder/pole.ts'
import { feetInWords } from '#domain/units/length.ts'
import type { SiteRequest } from './site-request.ts'

/** Lengths in feet come rounded to metres: a 40 ft pole may be recorded as 12.19 or 12.2 m. */
const ROUNDING_M = 0.05

/** ANSI O5.1 class as a number that grows as the pole weakens: 4 is 4, H1 is 0, H6 is −5. */
function weakness(poleClass: string): number {
  return poleClass.startsWith('H') ? 1 - Number(poleClass.slice(1)) : Number(poleClass)
}

/** Why a pole is too short or too weak for a bank; what is not recorded rules nothing out. */
export function strengthReasons(pole: Pole, request: SiteRequest): string[] {
  const reasons: string[] = []
  const { heightM, poleClass } = pole
  if (heightM !== undefined && heightM < request.leastPoleHeightM - ROUNDING_M) {
    const least = feetInWords(request.leastPoleHeightM)
    reasons.push(`The pole is ${feetInWords(heightM)} long; a bank needs at least ${least}.`)
  }
  if (poleClass !== undefined && weakness(poleClass) > request.weakestPoleClass) {
    reasons.push(
      `The pole is class ${poleClass}; a bank needs class ${request.weakestPoleClass} or stronger.`,
    )
  }
  return reasons
}
