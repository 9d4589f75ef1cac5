import { destination, point } from '@turf/turf'
import type { PoleAssessment, PoleState } from '#domain/avian/assessment/pole-assessment.ts'
import type { MeasureSet } from '#domain/avian/measures/measure.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part } from '#domain/avian/pole-top/part.ts'
import { ProgrammeRequest } from '#domain/avian/programme/programme.ts'
import type { ProgrammeInput } from '#domain/avian/programme/programme-input.ts'
import type { Nest } from '#domain/feeder/birds.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { birdFeeder, poleWith } from '../bird-feeder.ts'

/** A pole as a test needs it: where along a straight line, what it costs and what it takes away. */
export interface HandMade {
  readonly id: string
  /** Metres east of the first. */
  readonly eastM: number
  readonly costUsd?: number
  readonly rank?: number
  readonly state?: PoleState
  /** Shares of the pairs that stand open. */
  readonly shares?: readonly number[]
  /** Ids of pairs that no measure closes. */
  readonly leftOpen?: readonly string[]
}

export const eastOf = (eastM: number): Position =>
  destination(point([-107, 43]), eastM, 90, { units: 'meters' }).geometry.coordinates as Position

function part(id: string, potential: Part['potential']): Part {
  return {
    id,
    label: id,
    kind: 'conductor',
    potential,
    from: [0, 0, 0],
    to: [0, 0, 0],
    radiusM: 0,
    surface: 'bare',
    canPerch: true,
  }
}

/** Pairs "a0~b0", "a1~b1" and so on. */
function pairOf(share: number, index: number): ContactPair {
  return {
    partA: part(`a${index}`, 'A'),
    partB: part(`b${index}`, 'grounded'),
    horizontalM: share,
    verticalM: 0,
    distanceM: share,
    at: [
      [0, 0, 0],
      [0, 0, 0],
    ],
    share,
    perchId: `a${index}`,
  }
}

export function assessmentOf({ id, state = 'open', shares = [0.5] }: HandMade): PoleAssessment {
  const isClosed = state === 'separated' || state === 'covered' || state === 'unknown'
  const pairs = isClosed ? [] : shares.map(pairOf)
  return {
    poleId: id,
    state,
    poleTop: null,
    pairs,
    pairsAsFramed: pairs.length,
    bySpecies: [{ speciesId: 'eagle', pairs: pairs.length, tightest: pairs[0] ?? null }],
    notes: [],
  }
}

export function handMadeInput(poles: readonly HandMade[], nests: Nest[] = []): ProgrammeInput {
  const feeder = birdFeeder(
    poles.map(({ id, eastM }) => poleWith({}, id, eastOf(eastM))),
    { nests },
  )
  const sets = poles.map(({ id, costUsd = 500, leftOpen = [] }): [string, MeasureSet] => [
    id,
    { uses: [{ kind: 'bushing cover', partIds: ['a0'] }], costUsd, leftOpen },
  ])
  return {
    feeder,
    assessments: poles.map(assessmentOf),
    ranked: poles
      .filter(({ state }) => state !== 'unknown')
      .map(({ id, rank = 0.5 }) => ({
        poleId: id,
        hazard: rank,
        exposure: 1,
        rank,
        staysAmongFirst: null,
      })),
    cheapest: new Map(sets),
  }
}

export function requestFor(changes: Partial<ProgrammeRequest> = {}): ProgrammeRequest {
  return ProgrammeRequest.parse({
    budgetUsd: 10_000,
    from: '2027-01-01',
    to: '2027-12-31',
    ...changes,
  })
}
