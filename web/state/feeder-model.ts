import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Load } from '#domain/feeder/load.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import type { Span } from '#domain/feeder/span.ts'
import { type FeederTrace, traceFeeder } from '#domain/network/trace-feeder.ts'

/** A feeder with the look-ups that every screen needs. */
export interface FeederModel {
  readonly feeder: Feeder
  readonly trace: FeederTrace
  readonly poleById: ReadonlyMap<string, Pole>
  readonly spanById: ReadonlyMap<string, Span>
  readonly equipmentAt: ReadonlyMap<string, readonly Equipment[]>
  readonly loadsAt: ReadonlyMap<string, readonly Load[]>
  /** Next pole toward the source; absent at the source and where no line reaches. */
  readonly upstreamOf: ReadonlyMap<string, string>
  /** Next poles away from the source, the one with the longer way behind it first. */
  readonly downstreamOf: ReadonlyMap<string, readonly string[]>
  /** Along the line from the source, metres. */
  readonly distanceM: ReadonlyMap<string, number>
  readonly customers: number
}

export function modelFeeder(feeder: Feeder): FeederModel {
  const trace = traceFeeder(feeder)
  return {
    feeder,
    trace,
    poleById: new Map(feeder.poles.map((pole) => [pole.id, pole])),
    spanById: new Map(feeder.spans.map((span) => [span.id, span])),
    equipmentAt: grouped(feeder.equipment, (item) => item.pole),
    loadsAt: grouped(feeder.loads, (load) => load.pole),
    upstreamOf: new Map(trace.spans.map(({ nearPole, farPole }) => [farPole, nearPole])),
    downstreamOf: downstreamPoles(trace),
    distanceM: distances(feeder, trace),
    customers: feeder.loads.reduce((sum, load) => sum + load.customers, 0),
  }
}

function grouped<Item>(
  items: readonly Item[],
  keyOf: (item: Item) => string | undefined,
): Map<string, Item[]> {
  const groups = new Map<string, Item[]>()
  for (const item of items) {
    const key = keyOf(item)
    if (key === undefined) continue
    const group = groups.get(key)
    if (group) group.push(item)
    else groups.set(key, [item])
  }
  return groups
}

function distances(feeder: Feeder, trace: FeederTrace): Map<string, number> {
  const found = new Map([[feeder.header.source.pole, 0]])
  for (const { farPole, distanceM } of trace.spans) found.set(farPole, distanceM)
  return found
}

function downstreamPoles(trace: FeederTrace): Map<string, string[]> {
  const reachM = new Map<string, number>()
  for (const { farPole, nearPole, distanceM } of trace.spans.toReversed()) {
    const own = Math.max(reachM.get(farPole) ?? 0, distanceM)
    reachM.set(farPole, own)
    reachM.set(nearPole, Math.max(reachM.get(nearPole) ?? 0, own))
  }
  const groups = grouped(trace.spans, ({ nearPole }) => nearPole)
  return new Map(
    [...groups].map(([pole, spans]) => [
      pole,
      spans
        .map(({ farPole }) => farPole)
        .sort((a, b) => (reachM.get(b) ?? 0) - (reachM.get(a) ?? 0)),
    ]),
  )
}
