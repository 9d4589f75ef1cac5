import { inspectionDue } from '#domain/avian/assessment/inspection-due.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Exposure, RankedPole } from '#domain/avian/exposure/exposure.ts'
import { polesNearNestsInUse } from '#domain/avian/nest-proximity.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Pole } from '#domain/feeder/pole.ts'

/** A pole as the list and the map show it. */
export interface ListedPole {
  readonly pole: Pole
  /** Null until it is assessed. */
  readonly assessment: PoleAssessment | null
  readonly exposure: Exposure | null
  /** Null for a pole of unknown state, which has no rank. */
  readonly ranked: RankedPole | null
  readonly isNearNestInUse: boolean
  /** Days by which its items should be looked at again, the earliest first. */
  readonly dueOn: readonly string[]
}

export interface PolesToList {
  readonly feeder: Feeder
  readonly items: readonly Protection[]
  readonly settings: BirdSettings
  readonly assessments: ReadonlyMap<string, PoleAssessment>
  readonly exposures: ReadonlyMap<string, Exposure>
  readonly ranked: readonly RankedPole[]
}

/**
 * Every real pole: first those where something can be bridged, by rank; then those of unknown
 * state, which have to be looked at; then the others. In the feeder's order until assessed.
 */
export function listPoles(record: PolesToList): ListedPole[] {
  const { feeder, assessments, exposures, ranked } = record
  const real = feeder.poles.filter(({ isAnonymousNode }) => !isAnonymousNode)
  const nearNests = polesNearNestsInUse(real, feeder.nests)
  const due = dueByPole(record)
  const places = new Map(ranked.map((pole, place) => [pole.poleId, { pole, place }]))
  const listed = real.map((pole) => ({
    pole,
    assessment: assessments.get(pole.id) ?? null,
    exposure: exposures.get(pole.id) ?? null,
    ranked: places.get(pole.id)?.pole ?? null,
    isNearNestInUse: nearNests.has(pole.id),
    dueOn: due.get(pole.id) ?? [],
  }))
  const placeOf = ({ pole }: ListedPole) => places.get(pole.id)?.place ?? ranked.length
  return listed.sort((a, b) => groupOf(a) - groupOf(b) || placeOf(a) - placeOf(b))
}

function groupOf({ assessment, ranked }: ListedPole): number {
  if (assessment === null) return 0
  if (assessment.state === 'unknown') return 1
  return (ranked?.hazard ?? 0) > 0 ? 0 : 2
}

function dueByPole({ items, settings }: PolesToList): Map<string, string[]> {
  const due = new Map<string, string[]>()
  for (const item of items) {
    const when = inspectionDue(item, settings)
    if (when) due.set(item.pole, [...(due.get(item.pole) ?? []), when.dueOn].sort())
  }
  return due
}

export interface ListFigures {
  readonly poles: number
  /** Where the design species can bridge parts. */
  readonly bridgeable: number
  /** Of these, within half a mile of a nest in use. */
  readonly bridgeableNearNest: number
  /** Items whose next look is due on the day or before. */
  readonly due: number
  readonly unknown: number
  /** False until each pole is assessed. */
  readonly isComplete: boolean
}

/** What stands in the first line of the desk. */
export function listFigures(listed: readonly ListedPole[], today: string): ListFigures {
  const bridgeable = listed.filter(canBeBridged)
  return {
    poles: listed.length,
    bridgeable: bridgeable.length,
    bridgeableNearNest: bridgeable.filter(({ isNearNestInUse }) => isNearNestInUse).length,
    due: listed.reduce((sum, { dueOn }) => sum + dueOn.filter((day) => day <= today).length, 0),
    unknown: listed.filter(({ assessment }) => assessment?.state === 'unknown').length,
    isComplete: listed.every(({ assessment }) => assessment !== null),
  }
}

export function canBeBridged({ assessment }: ListedPole): boolean {
  return (assessment?.pairs.length ?? 0) > 0
}
