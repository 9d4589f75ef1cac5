import { feetInWords } from '#domain/units/length.ts'
import type { Pole } from '../../feeder/pole.ts'
import type { Span } from '../../feeder/span.ts'
import { type Clue, NOT_KNOWN, NOTHING_THERE } from './clue.ts'

/** A pole that is so much taller than its neighbours stands out as much as any. Judgement. */
const FULL_RISE_M = 3

/**
 * How far a pole is taller than the mean of the poles that spans join to it. Unknown where its own
 * length or that of every neighbour is not recorded.
 */
export function tallerClues(poles: readonly Pole[], spans: readonly Span[]): (pole: Pole) => Clue {
  const heights = new Map(poles.map(({ id, heightM }) => [id, heightM]))
  const neighbours = neighboursOf(spans)
  return ({ id, heightM }) => {
    const known = (neighbours.get(id) ?? []).flatMap((other) => heights.get(other) ?? [])
    if (heightM === undefined || known.length === 0) return NOT_KNOWN
    const riseM = heightM - known.reduce((sum, each) => sum + each, 0) / known.length
    if (riseM <= 0) return NOTHING_THERE
    return {
      value: Math.min(1, riseM / FULL_RISE_M),
      reason: riseM >= 0.3 ? `${feetInWords(riseM)} taller than the poles beside it` : '',
    }
  }
}

function neighboursOf(spans: readonly Span[]): Map<string, string[]> {
  const neighbours = new Map<string, string[]>()
  const join = (one: string, other: string) => {
    const known = neighbours.get(one)
    if (known) known.push(other)
    else neighbours.set(one, [other])
  }
  for (const { from, to } of spans) {
    join(from, to)
    join(to, from)
  }
  return neighbours
}
