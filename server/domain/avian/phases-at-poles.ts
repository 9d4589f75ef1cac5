import { type PhaseMask, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Span } from '../feeder/span.ts'

/** How many phases the spans that end on each pole bring to it; poles without spans are absent. */
export function phaseCounts(spans: readonly Span[]): Map<string, number> {
  const masks = new Map<string, PhaseMask>()
  for (const span of spans) {
    for (const pole of [span.from, span.to]) {
      masks.set(pole, (masks.get(pole) ?? 0) | phaseMask(span.phases))
    }
  }
  return new Map([...masks].map(([pole, mask]) => [pole, phasesOfMask(mask).length]))
}
