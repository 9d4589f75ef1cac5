import { inchesOfMetres } from '#domain/units/length.ts'
import type { PairSeparation, PoleSeparation } from './separation.ts'

/** Keeps a length that is 14 in to the last bit from being cut to 13.9 in. */
const ROUNDING_IN = 1e-6

/**
 * A gap in inches, cut (not rounded) to a tenth, so that a gap short of guidance never reads as if
 * it reached it: 1.523 m is "59.9 in".
 */
export function gapInches(lengthM: number): string {
  const tenths = Math.floor(inchesOfMetres(lengthM) * 10 + ROUNDING_IN) / 10
  return `${tenths} in`
}

/** "14 in (0.355 m)"; the metres are cut the same way. */
export function gapBothUnits(lengthM: number): string {
  return `${gapInches(lengthM)} (${gapMetres(lengthM)})`
}

function gapMetres(lengthM: number): string {
  return `${(Math.floor(lengthM * 1000 + ROUNDING_IN) / 1000).toFixed(3)} m`
}

/** What is missing to guidance, rounded up to a tenth of an inch for the same reason. */
export function shortfallInches(lengthM: number): string {
  return `${Math.ceil(inchesOfMetres(lengthM) * 10 - ROUNDING_IN) / 10} in`
}

/** "Phase to ground: 14 in apart horizontally, 0 in vertically; an eagle can bridge it." */
export function pairInWords(pair: PairSeparation): string {
  const name = capitalised(pair.pair)
  if (pair.verdict === 'absent')
    return `${name}: the pole carries one phase, so there is no such pair.`
  if (pair.horizontalM === null && pair.verticalM === null) {
    return `${name}: not recorded, so nobody can say; measure it on the pole.`
  }
  const across =
    pair.horizontalM === null
      ? 'horizontal gap not recorded'
      : `${gapInches(pair.horizontalM)} apart horizontally`
  const up =
    pair.verticalM === null
      ? 'vertical gap not recorded'
      : `${gapInches(pair.verticalM)} vertically`
  return `${name}: ${across}, ${up}; ${outcome(pair)}.`
}

function outcome(pair: PairSeparation): string {
  if (pair.verdict === 'sufficient') return 'one of them reaches the guidance for eagles'
  if (pair.verdict === 'short') return 'an eagle can bridge it'
  return 'what is recorded falls short, and the other gap decides'
}

/** "Phase to ground is short by 46 in horizontally or 40 in vertically; …". Null unless short. */
export function shortfallInWords(pair: PairSeparation): string | null {
  if (pair.verdict !== 'short' || pair.shortHorizontalM === null || pair.shortVerticalM === null) {
    return null
  }
  return `${capitalised(pair.pair)} is short by ${shortfallInches(pair.shortHorizontalM)} horizontally or ${shortfallInches(pair.shortVerticalM)} vertically; making up either one would do.`
}

/** One sentence about the whole pole. */
export function verdictInWords(separation: PoleSeparation): string {
  if (separation.worst) return pairInWords(separation.worst)
  if (separation.verdict === 'sufficient') {
    return 'Every recorded pair reaches the guidance for eagles.'
  }
  const unknown = separation.pairs.filter(({ verdict }) => verdict === 'unknown')
  return `Not settled: ${unknown.map(({ pair }) => pair).join(' and ')} ${unknown.length > 1 ? 'are' : 'is'} not fully recorded.`
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
