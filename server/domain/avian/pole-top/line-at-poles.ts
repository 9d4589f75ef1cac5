import { type Phase, type PhaseMask, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Span } from '../../feeder/span.ts'

export interface LineAtPole {
  readonly phases: readonly Phase[]
  readonly tapPhases: readonly Phase[]
}

interface SpanEnd {
  readonly mask: PhaseMask
  /** Direction away from the pole, seen from above; of length 1, or 0 where the span has no length. */
  readonly east: number
  readonly north: number
}

/**
 * Which phases the spans bring to each pole, and which of them leave to the side. Where more than two
 * spans meet, the main line is the two that share most phases and run straightest; the rest are taps.
 */
export function lineAtPoles(spans: readonly Span[]): Map<string, LineAtPole> {
  const ends = new Map<string, SpanEnd[]>()
  const add = (pole: string, end: SpanEnd) => {
    const known = ends.get(pole)
    if (known) known.push(end)
    else ends.set(pole, [end])
  }
  for (const { from, to, path, phases } of spans) {
    const mask = phaseMask(phases)
    add(from, { mask, ...direction(path[0], path[1]) })
    add(to, { mask, ...direction(path.at(-1), path.at(-2)) })
  }
  return new Map([...ends].map(([pole, own]) => [pole, lineOf(own)]))
}

type Degrees = Span['path'][number]

function direction(here: Degrees | undefined, there: Degrees | undefined) {
  if (!here || !there) return { east: 0, north: 0 }
  const east = (there[0] - here[0]) * Math.cos((here[1] * Math.PI) / 180)
  const north = there[1] - here[1]
  const length = Math.hypot(east, north)
  return length === 0 ? { east: 0, north: 0 } : { east: east / length, north: north / length }
}

function lineOf(ends: readonly SpanEnd[]): LineAtPole {
  const phases = phasesOfMask(ends.reduce((all, { mask }) => all | mask, 0))
  if (ends.length < 3) return { phases, tapPhases: [] }
  const main = mainPair(ends)
  const tapMask = ends.filter((end) => !main.includes(end)).reduce((all, { mask }) => all | mask, 0)
  return { phases, tapPhases: phasesOfMask(tapMask) }
}

function mainPair(ends: readonly SpanEnd[]): readonly SpanEnd[] {
  let best: readonly SpanEnd[] = []
  let bestScore = Number.NEGATIVE_INFINITY
  ends.forEach((one, i) => {
    for (const other of ends.slice(i + 1)) {
      const straightness = -(one.east * other.east + one.north * other.north)
      const score = 4 * phasesOfMask(one.mask & other.mask).length + straightness
      if (score > bestScore) {
        best = [one, other]
        bestScore = score
      }
    }
  })
  return best
}
