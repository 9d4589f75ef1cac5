import { includesPhases, type PhaseSet, phaseSetOfMask } from '#domain/units/phases.ts'
import type { FeederModel } from '../state/feeder-model.ts'

/** Span at whose near end a bank with these phases would sit, by pole. */
export type BankPlaces = ReadonlyMap<string, string>

/**
 * Every pole from which the phases of the bank go onward in the direction the span is recorded in.
 * Where several spans do, the one with the longest way behind it is taken.
 */
export function bankPlaces({ trace, downstreamOf }: FeederModel, phases: PhaseSet): BankPlaces {
  const places = new Map<string, string>()
  for (const { span, nearPole, farPole, mask, isReversed } of trace.spans) {
    if (isReversed || mask === 0 || !includesPhases(phaseSetOfMask(mask), phases)) continue
    const isLongest = downstreamOf.get(nearPole)?.[0] === farPole
    if (isLongest || !places.has(nearPole)) places.set(nearPole, span.id)
  }
  return places
}

/** Next place toward the source (−1) or along the longest way from it (1); null at the end. */
export function nextPlace(
  { upstreamOf, downstreamOf }: FeederModel,
  places: BankPlaces,
  pole: string,
  step: 1 | -1,
): string | null {
  const onward = (from: string) =>
    step === -1 ? upstreamOf.get(from) : downstreamOf.get(from)?.find((next) => places.has(next))
  for (let next = onward(pole); next !== undefined; next = onward(next)) {
    if (places.has(next)) return next
  }
  return null
}
