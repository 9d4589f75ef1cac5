import type { Position } from '../../feeder/geometry.ts'
import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { RankedPole } from '../exposure/exposure.ts'
import { hazardOfPairs } from '../exposure/hazard.ts'
import { PointGrid } from '../exposure/point-grid.ts'
import type { MeasureSet } from '../measures/measure.ts'
import type { DayRange } from '../nests/calendar-days.ts'
import { heldAllTheTime, nestNotes } from '../nests/nest-notes.ts'
import { type NestWithBuffer, nestsWithBuffers, workNearNests } from '../nests/work-near-nests.ts'
import { pairId } from '../pole-top/contact-pairs.ts'
import type { LeftOutPole, ProgrammeRequest } from './programme.ts'
import type { ProgrammeInput } from './programme-input.ts'

/** A pole that the programme may choose. */
export interface Candidate {
  readonly id: string
  readonly at: Position
  readonly measures: MeasureSet
  /** Hazard times exposure that its measures take away. */
  readonly reduction: number
  /** Days on which no nest buffer holds it, never empty. */
  readonly free: readonly DayRange[]
  readonly notes: readonly string[]
}

export interface Candidates {
  readonly candidates: readonly Candidate[]
  readonly leftOut: readonly LeftOutPole[]
  /** Hazard times exposure of all poles that are not closed. */
  readonly reductionPossible: number
}

/** Size of a cell for finding nests: about the widest buffer. */
const NEST_CELL_M = 1600

/** Sorts the poles that are not closed into those that can be chosen and those that cannot, with why. */
export function programmeCandidates(input: ProgrammeInput, request: ProgrammeRequest): Candidates {
  const { feeder, settings } = input
  const days = { from: request.from, to: request.to }
  const nests = new PointGrid(
    nestsWithBuffers(feeder.nests, settings),
    ({ nest }) => nest.at,
    NEST_CELL_M,
  )
  const places = new Map(feeder.poles.map(({ id, at }) => [id, at]))
  const ranks = new Map(input.ranked.map((ranked) => [ranked.poleId, ranked]))
  const waiting = new Set(request.waitingForJob)
  const candidates: Candidate[] = []
  const leftOut: LeftOutPole[] = []
  let reductionPossible = 0
  for (const assessment of input.assessments) {
    const pole = assessment.poleId
    const at = places.get(pole)
    if (!at || isClosed(assessment)) continue
    const ranked = ranks.get(pole)
    reductionPossible += ranked?.rank ?? 0
    const found = waiting.has(pole)
      ? 'Waits for a regulator job, which carries its measures: one pole, one visit.'
      : candidateOf(assessment, at, ranked, input.cheapest.get(pole), nests, days)
    if (typeof found === 'string') leftOut.push({ pole, why: found })
    else candidates.push(found)
  }
  return { candidates, leftOut, reductionPossible }
}

/** Nothing is to be done for the design species. */
function isClosed({ state, pairs }: PoleAssessment): boolean {
  return state === 'separated' || state === 'covered' || (state !== 'unknown' && pairs.length === 0)
}

/** A candidate, or in a sentence why it is none. */
function candidateOf(
  assessment: PoleAssessment,
  at: Position,
  ranked: RankedPole | undefined,
  measures: MeasureSet | undefined,
  nests: PointGrid<NestWithBuffer>,
  days: DayRange,
): Candidate | string {
  if (assessment.state === 'unknown' || !ranked) {
    return 'Nothing is recorded from which its pole top could be drawn: look at it first.'
  }
  if (!measures || measures.uses.length === 0) return 'No measure is known that closes its pairs.'
  const left = new Set(measures.leftOpen)
  const open = assessment.pairs.filter((pair) => left.has(pairId(pair)))
  const before = hazardOfPairs(assessment.pairs)
  const reduction = before > 0 ? ranked.rank * (1 - hazardOfPairs(open) / before) : 0
  if (reduction <= 0) return 'By the weights set, nothing is expected of work on it.'
  const work = workNearNests(at, nests, days, assessment.poleId)
  if (work.free.length === 0) return heldAllTheTime(work, days)
  return {
    id: assessment.poleId,
    at,
    measures,
    reduction,
    free: work.free,
    notes: [...nestNotes(work, days), ...openNotes(open.length)],
  }
}

function openNotes(open: number): string[] {
  if (open === 0) return []
  return [
    `${open} pair${open > 1 ? 's stay' : ' stays'} open: no measure closes ${open > 1 ? 'them' : 'it'}.`,
  ]
}
