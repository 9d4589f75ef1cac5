import type { Feeder } from '#domain/feeder/feeder.ts'
import type { FeederTrace } from '#domain/network/trace-feeder.ts'
import { phasesOfMask } from '#domain/units/phases.ts'

export interface Neighbour {
  readonly poleId: string
  readonly spanId: string
  /** As "ABC"; what the span carries in the present state of the switches. */
  readonly phases: string
}

export interface LineNeighbours {
  /** Toward the source; null at the source and on poles that nothing feeds. */
  readonly up: Neighbour | null
  readonly down: readonly Neighbour[]
  /** Joined by a span that is open: normally open, or through an open switch. */
  readonly acrossOpen: readonly Neighbour[]
}

/** Who stands next to a pole along the line. */
export function lineNeighbours(feeder: Feeder, trace: FeederTrace, poleId: string): LineNeighbours {
  const closed = new Set(trace.spans.map(({ span }) => span.id))
  const feeding = trace.spans[trace.feedingSpan.get(poleId) ?? -1]
  return {
    up: feeding
      ? { poleId: feeding.nearPole, spanId: feeding.span.id, phases: phaseText(feeding.mask) }
      : null,
    down: trace.spans
      .filter(({ nearPole }) => nearPole === poleId)
      .map(({ farPole, span, mask }) => ({
        poleId: farPole,
        spanId: span.id,
        phases: phaseText(mask),
      })),
    acrossOpen: feeder.spans
      .filter(({ id, from, to }) => !closed.has(id) && (from === poleId || to === poleId))
      .map(({ id, from, to, phases }) => ({
        poleId: from === poleId ? to : from,
        spanId: id,
        phases,
      })),
  }
}

const phaseText = (mask: number): string => phasesOfMask(mask).join('')
