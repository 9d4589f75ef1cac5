import type { Network } from '#domain/electrical/network.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LoadCase, VoltageLimits } from '#domain/feeder/header.ts'
import type { LimitJudge } from './limit-judge.ts'
import type { Site } from './placement.ts'
import { bankCostUsd, presentWorthOfLosses } from './present-worth.ts'
import type { SiteRequest } from './site-request.ts'
import { type Trial, totalHours } from './trial.ts'
import type { CaseBench } from './trial-bench.ts'
import type { RankKey, Worth } from './trial-order.ts'

/** Everything that stays the same while placements are tried. */
export interface Study {
  readonly feeder: Feeder
  readonly network: Network
  readonly request: SiteRequest
  readonly limits: VoltageLimits
  readonly cases: readonly LoadCase[]
  readonly judge: LimitJudge
  readonly benches: readonly CaseBench[]
  /** Index of the case with the largest load. */
  readonly heaviest: number
  /** The feeder as it stands. */
  readonly before: Trial
  /** Per unit voltages as it stands, by case, 3 per node. */
  readonly puBefore: readonly Float64Array[]
}

/** Placement with its figures, light enough to keep by the ten thousand. */
export interface Ranked {
  readonly sites: readonly Site[]
  readonly key: RankKey
  readonly outside: number
  readonly meanLossKw: number
}

export interface Hooks {
  readonly onProgress: (done: number, total: number, phase: string) => void
  readonly isCancelled: () => boolean
}

/** Thrown to leave the search when the person has cancelled it; caught by `siteFeeder`. */
export class Cancelled extends Error {}

/** Reports progress and leaves when cancelled. */
export function checkIn(hooks: Hooks, done: number, total: number, phase: string): void {
  if (hooks.isCancelled()) throw new Cancelled('The search was cancelled.')
  hooks.onProgress(done, total, phase)
}

export function unitsOf(sites: readonly Site[]): number {
  return sites.reduce((sum, site) => sum + site.candidate.phases.length, 0)
}

/** Cost of the banks with the room made for them, and the present worth of a mean kilowatt lost. */
export function worthOf(study: Study, sites: readonly Site[]): Worth {
  const { money } = study.request
  return {
    bankUsd: sites.reduce(
      (sum, site) => sum + bankCostUsd(money, unitsOf([site])) + site.candidate.roomUsd,
      0,
    ),
    usdPerMeanKw: usdPerMeanKw(study),
  }
}

function usdPerMeanKw({ cases, feeder, request }: Study): number {
  const { energyUsdPerKwh, studyYears, discountRatePct } = request.money
  const growth = feeder.header.growthPctPerYear
  const factor = presentWorthOfLosses(studyYears, discountRatePct, growth)
  return totalHours(cases) * energyUsdPerKwh * factor
}
