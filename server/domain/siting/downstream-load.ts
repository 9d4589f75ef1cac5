import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LoadCase } from '#domain/feeder/header.ts'
import type { Load } from '#domain/feeder/load.ts'
import { loadParts } from '#domain/network/load-phases.ts'
import type { FeederTrace } from '#domain/network/trace-feeder.ts'

export interface DownstreamLoad {
  /** Load beyond the near pole of each traced span, by way of that span. */
  readonly kva: Float64Array
  /** Each load times its distance along the line from that near pole. */
  readonly kvaKm: Float64Array
}

/** Load on and beyond each traced span in one case, summed without regard to power factor. */
export function downstreamLoad(
  feeder: Feeder,
  trace: FeederTrace,
  loadCase: LoadCase,
): DownstreamLoad {
  const count = trace.spans.length
  const kva = new Float64Array(count)
  const kvaKm = new Float64Array(count)
  const lengthsKm = trace.spans.map((span) => {
    return (span.distanceM - (trace.spans[span.parent]?.distanceM ?? 0)) / 1000
  })
  const indexOfSpan = new Map(trace.spans.map((traced, index) => [traced.span.id, index]))
  for (const load of feeder.loads) {
    const isOnSpan = load.span !== undefined
    const index = isOnSpan
      ? indexOfSpan.get(load.span ?? '')
      : trace.feedingSpan.get(load.pole ?? '')
    if (index === undefined || index < 0) continue
    const size = loadKva(load, loadCase)
    kva[index] = (kva[index] ?? 0) + size
    const reachKm = (lengthsKm[index] ?? 0) * (isOnSpan ? 0.5 : 1)
    kvaKm[index] = (kvaKm[index] ?? 0) + size * reachKm
  }
  for (let index = count - 1; index >= 0; index -= 1) {
    const parent = trace.spans[index]?.parent ?? -1
    if (parent < 0) continue
    const size = kva[index] ?? 0
    kva[parent] = (kva[parent] ?? 0) + size
    kvaKm[parent] = (kvaKm[parent] ?? 0) + (kvaKm[index] ?? 0) + size * (lengthsKm[parent] ?? 0)
  }
  return { kva, kvaKm }
}

/** Case in which all loads together are largest. */
export function heaviestCase(feeder: Feeder, cases: readonly LoadCase[]): LoadCase | undefined {
  const total = (loadCase: LoadCase) =>
    feeder.loads.reduce((sum, load) => sum + loadKva(load, loadCase), 0)
  return cases.toSorted((a, b) => total(b) - total(a))[0]
}

function loadKva(load: Load, loadCase: LoadCase): number {
  const factor = loadCase.classFactors[load.customerClass] ?? loadCase.loadFactor
  return loadParts(load).reduce((sum, part) => sum + Math.hypot(part.kw, part.kvar), 0) * factor
}
