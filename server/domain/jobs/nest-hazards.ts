import { PointGrid } from '../avian/exposure/point-grid.ts'
import { dayInWords } from '../avian/nests/calendar-days.ts'
import { isDayInSeason } from '../avian/nests/day-in-season.ts'
import { AGENCY_DECIDES, nestNote } from '../avian/nests/nest-notes.ts'
import {
  type NestInTheWay,
  nestsWithBuffers,
  workNearNests,
} from '../avian/nests/work-near-nests.ts'
import type { DraftScene } from './draft-scene.ts'
import type { Hazard } from './job-plan.ts'

/** Cells of the index, metres; about as wide as buffers are. */
const CELL_M = 800
const MOST_LETTERS = 600

/**
 * Nests whose buffers hold a pole of the job, with the days of the year on which they do, and how the
 * days lie to them that are known of the job: a plan may be carried out long after it is drafted.
 */
export function nestHazards(scene: DraftScene): Hazard[] {
  const { birdSettings, feeder, on, works } = scene
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
    const { inTheWay } = workNearNests(at, nests, day, pole)
    if (inTheWay.length === 0) return []
    const words = [
      ...inTheWay.map((found) => `${nestNote(found)} ${daysWords(scene, found)}`),
      AGENCY_DECIDES,
    ]
    const sources = [...new Set(inTheWay.map(({ buffer }) => buffer.source))]
    return inPieces(words).map((what) => ({
      about: 'nest' as const,
      what,
      pole,
      source: sources.join('; '),
    }))
  })
}

/** "Drafted on 10 Apr 2027, in the season; due on 2 Aug 2027, outside it." */
function daysWords({ dueOn, on }: DraftScene, { buffer }: NestInTheWay): string {
  const { from, to } = buffer
  const where = (date: string) => (isDayInSeason(date, from, to) ? 'in that season' : 'outside it')
  const drafted = `Drafted on ${dayInWords(on)}, ${where(on)}`
  return dueOn === undefined
    ? `${drafted}; no due day is given: hold the day of the work against it.`
    : `${drafted}; due on ${dayInWords(dueOn)}, ${where(dueOn)}.`
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
