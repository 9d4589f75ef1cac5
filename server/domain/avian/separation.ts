import type { Pole } from '../feeder/pole.ts'
import { EAGLE_GUIDANCE, type SeparationGuidance } from './eagle-guidance.ts'

export type PartPair = 'phase to phase' | 'phase to ground'

/**
 * `sufficient`: one of the two separations reaches guidance. `short`: both are recorded and
 * neither does. `unknown`: what is recorded does not settle it. `absent`: the pole carries no such
 * pair, as a single-phase pole has no second phase.
 */
export type PairVerdict = 'sufficient' | 'short' | 'unknown' | 'absent'

export interface PairSeparation {
  readonly pair: PartPair
  readonly horizontalM: number | null
  readonly verticalM: number | null
  readonly verdict: PairVerdict
  /** What is missing to guidance, metres; 0 where reached, null where not recorded. */
  readonly shortHorizontalM: number | null
  readonly shortVerticalM: number | null
  /** Larger of the two shares of guidance, 0 to 1; null where neither is recorded. */
  readonly shareOfGuidance: number | null
}

/** `bridgeable`: an eagle can bridge at least one pair by the recorded separations. */
export type PoleVerdict = 'bridgeable' | 'unknown' | 'sufficient'

export interface PoleSeparation {
  readonly poleId: string
  readonly pairs: readonly PairSeparation[]
  readonly verdict: PoleVerdict
  /** The pair furthest below guidance; null unless the pole is bridgeable. */
  readonly worst: PairSeparation | null
}

/** Tolerance for lengths that went through decimal text, metres. */
const ROUNDING_M = 1e-6

/**
 * Holds the separations recorded on a pole against guidance. Guards, covers and perches play no
 * part: none of them moves two parts further apart.
 *
 * @param phaseCount Phases that the pole carries, 0 where unknown; with one, two phases cannot meet.
 */
export function assessSeparation(
  pole: Pole,
  phaseCount: number,
  guidance: SeparationGuidance = EAGLE_GUIDANCE,
): PoleSeparation {
  const pairs = [
    assessPair(
      'phase to phase',
      pole.phaseToPhaseHorizontalM,
      pole.phaseToPhaseVerticalM,
      guidance,
      phaseCount === 1,
    ),
    assessPair(
      'phase to ground',
      pole.phaseToGroundHorizontalM,
      pole.phaseToGroundVerticalM,
      guidance,
      false,
    ),
  ]
  return {
    poleId: pole.id,
    pairs,
    verdict: poleVerdict(pairs),
    worst: furthestBelow(pairs.filter(({ verdict }) => verdict === 'short')),
  }
}

function assessPair(
  pair: PartPair,
  horizontalM: number | undefined,
  verticalM: number | undefined,
  guidance: SeparationGuidance,
  cannotOccur: boolean,
): PairSeparation {
  const isRecorded = horizontalM !== undefined || verticalM !== undefined
  const shortHorizontalM = shortfallM(horizontalM, guidance.horizontalM)
  const shortVerticalM = shortfallM(verticalM, guidance.verticalM)
  return {
    pair,
    horizontalM: horizontalM ?? null,
    verticalM: verticalM ?? null,
    verdict: cannotOccur && !isRecorded ? 'absent' : pairVerdict(shortHorizontalM, shortVerticalM),
    shortHorizontalM,
    shortVerticalM,
    shareOfGuidance: isRecorded
      ? Math.min(
          1,
          Math.max(
            (horizontalM ?? 0) / guidance.horizontalM,
            (verticalM ?? 0) / guidance.verticalM,
          ),
        )
      : null,
  }
}

function shortfallM(recordedM: number | undefined, guidanceM: number): number | null {
  if (recordedM === undefined) return null
  const missingM = guidanceM - recordedM
  return missingM <= ROUNDING_M ? 0 : missingM
}

function pairVerdict(shortHorizontalM: number | null, shortVerticalM: number | null): PairVerdict {
  if (shortHorizontalM === 0 || shortVerticalM === 0) return 'sufficient'
  return shortHorizontalM === null || shortVerticalM === null ? 'unknown' : 'short'
}

function poleVerdict(pairs: readonly PairSeparation[]): PoleVerdict {
  if (pairs.some(({ verdict }) => verdict === 'short')) return 'bridgeable'
  return pairs.some(({ verdict }) => verdict === 'unknown') ? 'unknown' : 'sufficient'
}

function furthestBelow(short: readonly PairSeparation[]): PairSeparation | null {
  return short.reduce<PairSeparation | null>(
    (worst, pair) =>
      worst === null || (pair.shareOfGuidance ?? 1) < (worst.shareOfGuidance ?? 1) ? pair : worst,
    null,
  )
}
