import { type PhaseMask, phaseMask } from '#domain/units/phases.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Span } from '../feeder/span.ts'
import { isOpen, type SeriesEquipment, seriesEquipmentBySpan } from './series-equipment.ts'
import { spanLengthM } from './span-length.ts'

/** A span in the order in which power reaches it. */
export interface TracedSpan {
  readonly span: Span
  readonly nearPole: string
  readonly farPole: string
  /** True where power flows from the span's `to` to its `from`. */
  readonly isReversed: boolean
  /** Index of the traced span that feeds this one; −1 at the source. */
  readonly parent: number
  /** Phases that really arrive. */
  readonly mask: PhaseMask
  readonly devices: readonly SeriesEquipment[]
  /** Along the line from the source to the far pole, metres. */
  readonly distanceM: number
}

/** Feeder from its source outward, depth first: each subtree is one run of `spans`. */
export interface FeederTrace {
  readonly spans: readonly TracedSpan[]
  /** Index in `spans` of the one that feeds the pole; the source has −1; poles without power are absent. */
  readonly feedingSpan: ReadonlyMap<string, number>
  /** Closed spans that would close a loop, each with the spans of the loop. */
  readonly loops: readonly { readonly closing: Span; readonly path: readonly string[] }[]
}

interface Neighbour {
  readonly span: Span
  readonly other: string
  readonly isReversed: boolean
}

/** Never throws: what is missing or unreachable is simply not in the trace. */
export function traceFeeder(feeder: Feeder): FeederTrace {
  const devicesBySpan = seriesEquipmentBySpan(feeder)
  const neighbours = closedNeighbours(feeder, devicesBySpan)
  const spans: TracedSpan[] = []
  const feedingSpan = new Map<string, number>([[feeder.header.source.pole, -1]])
  const loops: { closing: Span; path: string[] }[] = []
  const used = new Set<string>()
  const stack: { near: string; next: Neighbour; parent: number }[] = []
  const visit = (pole: string, parent: number): void => {
    const found = neighbours.get(pole) ?? []
    for (let i = found.length - 1; i >= 0; i--) {
      const next = found[i]
      if (next && !used.has(next.span.id)) stack.push({ near: pole, next, parent })
    }
  }
  visit(feeder.header.source.pole, -1)
  for (let top = stack.pop(); top; top = stack.pop()) {
    const { near, next, parent } = top
    if (used.has(next.span.id)) continue
    used.add(next.span.id)
    if (feedingSpan.has(next.other)) {
      loops.push({ closing: next.span, path: loopPath(spans, feedingSpan, near, next.other) })
      continue
    }
    const feeding = spans[parent]
    feedingSpan.set(next.other, spans.length)
    spans.push({
      span: next.span,
      nearPole: near,
      farPole: next.other,
      isReversed: next.isReversed,
      parent,
      mask: phaseMask(next.span.phases) & (feeding?.mask ?? 7),
      devices: devicesBySpan.get(next.span.id) ?? [],
      distanceM: (feeding?.distanceM ?? 0) + spanLengthM(next.span),
    })
    visit(next.other, spans.length - 1)
  }
  return { spans, feedingSpan, loops }
}

function closedNeighbours(
  feeder: Feeder,
  devicesBySpan: ReadonlyMap<string, readonly SeriesEquipment[]>,
): Map<string, Neighbour[]> {
  const neighbours = new Map<string, Neighbour[]>()
  const join = (pole: string, neighbour: Neighbour): void => {
    const found = neighbours.get(pole)
    if (found) found.push(neighbour)
    else neighbours.set(pole, [neighbour])
  }
  for (const span of feeder.spans) {
    if (isOpen(span, devicesBySpan.get(span.id) ?? [])) continue
    join(span.from, { span, other: span.to, isReversed: false })
    join(span.to, { span, other: span.from, isReversed: true })
  }
  return neighbours
}

/** Span ids from both poles back to where their ways from the source part. */
function loopPath(
  spans: readonly TracedSpan[],
  feedingSpan: ReadonlyMap<string, number>,
  poleA: string,
  poleB: string,
): string[] {
  const wayOf = (pole: string): number[] => {
    const way: number[] = []
    for (let i = feedingSpan.get(pole) ?? -1; i >= 0; i = spans[i]?.parent ?? -1) way.push(i)
    return way
  }
  const a = wayOf(poleA)
  const b = wayOf(poleB)
  const shared = new Set(a.filter((i) => b.includes(i)))
  return [...a, ...b].filter((i) => !shared.has(i)).map((i) => spans[i]?.span.id ?? '')
}
