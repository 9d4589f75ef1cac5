import type { Capacitor, Generator } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Load } from '../feeder/load.ts'
import type { Span } from '../feeder/span.ts'
import { isOpen, seriesEquipmentBySpan } from '../network/series-equipment.ts'
import type { FeederTrace } from '../network/trace-feeder.ts'

/** What may bring voltage back to a span from its far side. */
export interface BeyondSpan {
  readonly generators: readonly Generator[]
  readonly capacitors: readonly Capacitor[]
  /** Loads that are recorded as feeding in. */
  readonly feedingLoads: readonly Load[]
  /** Open spans that end beyond it: ties that can be closed. */
  readonly openTies: readonly Span[]
}

/** Null where no power reaches the span, and so nothing is known of what lies beyond. */
export function beyondSpan(feeder: Feeder, trace: FeederTrace, spanId: string): BeyondSpan | null {
  const first = trace.spans.findIndex(({ span }) => span.id === spanId)
  if (first < 0) return null
  const inside = spansFrom(trace, first)
  const poles = new Set(inside.map(({ farPole }) => farPole))
  const spans = new Set(inside.map(({ span }) => span.id))
  const devices = seriesEquipmentBySpan(feeder)
  return {
    generators: feeder.equipment.filter(
      (item): item is Generator =>
        (item.kind === 'solar' || item.kind === 'generator') && poles.has(item.pole),
    ),
    capacitors: feeder.equipment.filter(
      (item): item is Capacitor => item.kind === 'capacitor' && poles.has(item.pole),
    ),
    feedingLoads: feeder.loads.filter(
      (load) => (poles.has(load.pole ?? '') || spans.has(load.span ?? '')) && smallestKw(load) < 0,
    ),
    openTies: feeder.spans.filter(
      (span) =>
        isOpen(span, devices.get(span.id) ?? []) && (poles.has(span.from) || poles.has(span.to)),
    ),
  }
}

/** Far poles of the span and of all behind it; none where no power reaches it. */
export function polesBeyond(trace: FeederTrace, spanId: string): ReadonlySet<string> {
  const first = trace.spans.findIndex(({ span }) => span.id === spanId)
  return new Set(first < 0 ? [] : spansFrom(trace, first).map(({ farPole }) => farPole))
}

/** The traced span and all behind it; they stand in one run, since the trace goes depth first. */
function spansFrom(trace: FeederTrace, first: number) {
  let end = first + 1
  while ((trace.spans[end]?.parent ?? -1) >= first) end += 1
  return trace.spans.slice(first, end)
}

function smallestKw({ kwA, kwB, kwC, kwAb, kwBc, kwCa }: Load): number {
  return Math.min(kwA, kwB, kwC, kwAb, kwBc, kwCa)
}
