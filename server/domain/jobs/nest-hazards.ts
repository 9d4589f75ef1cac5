import { PointGrid } from '../avian/exposure/point-grid.ts'
import { nestNotes } from '../avian/nests/nest-notes.ts'
import { nestsWithBuffers, workNearNests } from '../avian/nests/work-near-nests.ts'
import type { DraftScene } from './draft-scene.ts'
import type { Hazard } from './job-plan.ts'

/** Cells of the index, metres; about as wide as buffers are. */
const CELL_M = 800
const MOST_LETTERS = 600

/** Nests whose buffers hold a pole of the job on the day, with their seasons. */
export function nestHazards({ birdSettings, feeder, on, works }: DraftScene): Hazard[] {
  const nests = new PointGrid(
    nestsWithBuffers(feeder.nests, birdSettings),
    ({ nest }) => nest.at,
    CELL_M,
  )
  const placeOf = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const day = { from: on, to: on }
  return works.flatMap(({ pole }) => {
    const at = placeOf.get(pole)
    if (!at) return []
    const near = workNearNests(at, nests, day, pole)
    const words = nestNotes(near, day)
    if (words.length === 0) return []
    const sources = [...new Set(near.inTheWay.map(({ buffer }) => buffer.source))]
    return inPieces(words).map((what) => ({
      about: 'nest' as const,
      what,
      pole,
      source: sources.join('; '),
    }))
  })
}

/** Sentences together, as many as one hazard holds. */
function inPieces(sentences: readonly string[]): string[] {
  const pieces: string[] = []
  for (const sentence of sentences) {
    const before = pieces.at(-1)
    const joined = before === undefined ? sentence : `${before} ${sentence}`
    if (before !== undefined && joined.length <= MOST_LETTERS) pieces[pieces.length - 1] = joined
    else pieces.push(sentence)
  }
  return pieces
}
