import { useEffect } from 'react'
import type { IncidentRecord } from '#contract/incidents.ts'
import type { LandAnswer } from '#contract/land.ts'
import type { NestRecord } from '#contract/nests.ts'
import type { PoleTopRecord } from '#contract/pole-tops.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Exposure, RankedPole } from '#domain/avian/exposure/exposure.ts'
import { surroundingsOfLand } from '#domain/avian/exposure/surroundings-of-land.ts'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '#domain/avian/pole-top/pole-top.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { useMay } from '../api/account.ts'
import { useBirdSettings } from '../api/bird-settings.ts'
import { useLand } from '../api/feeders.ts'
import { useIncidents } from '../api/incidents.ts'
import { useNests } from '../api/nests.ts'
import { usePoleTops } from '../api/pole-tops.ts'
import { useProtections } from '../api/protections.ts'
import { useFeeder } from '../state/feeder.tsx'
import { memoLast } from '../state/memo-last.ts'
import type { BirdMarks, BirdPlace } from '../workers/bird-bench.ts'
import type { Progress } from '../workers/messages.ts'
import { assess, useAssessedBirds } from './assessed-birds.ts'

export interface BirdRecord {
  /** With nests and finds as the record has them now. */
  readonly feeder: Feeder
  readonly items: readonly ProtectionRecord[]
  readonly choices: readonly PoleTopRecord[]
  readonly settings: BirdSettings
  /** Every real pole, in the feeder's order. */
  readonly sites: readonly PoleSite[]
  /** By pole; fills in after the list is there. */
  readonly assessments: ReadonlyMap<string, PoleAssessment>
  readonly exposures: ReadonlyMap<string, Exposure>
  /** The first is the one to do first. */
  readonly ranked: readonly RankedPole[]
  /** What the worker is asked with. */
  readonly place: BirdPlace
  readonly marks: BirdMarks
  /** Something is still on its way, or being assessed for the first time. */
  readonly isLoading: boolean
  readonly progress: Progress | null
  readonly error: Error | null
  readonly retry: () => void
}

const NOTHING: readonly never[] = []
const NO_SETTINGS: BirdSettings = BirdSettings.parse({})
const NONE_ASSESSED: ReadonlyMap<string, never> = new Map<string, never>()

const feederOf = memoLast(
  (
    opened: Feeder,
    nests: readonly NestRecord[] | undefined,
    incidents: readonly IncidentRecord[] | undefined,
  ): Feeder => ({
    ...opened,
    nests: nests ? [...nests] : opened.nests,
    incidents: incidents ? [...incidents] : opened.incidents,
  }),
)
const placeOf = memoLast(
  (feeder: Feeder, land: LandAnswer | undefined): BirdPlace => ({
    feeder,
    surroundings: land && surroundingsOfLand(land.layers),
  }),
)
const marksOf = memoLast(
  (
    choices: readonly PoleTopRecord[],
    protections: readonly ProtectionRecord[],
    settings: BirdSettings,
  ): BirdMarks => ({ choices, protections, settings }),
)
const sitesOf = memoLast(poleSites)

/** The open feeder as the coordinator sees it: the record at once, the assessment as it comes. */
export function useBirdRecord(): BirdRecord {
  const { feeder: opened } = useFeeder()
  const { id, place: placeId } = opened.header
  const maySee = useMay('see nests and incidents')
  const nests = useNests(id, maySee)
  const incidents = useIncidents(id, maySee)
  const protections = useProtections(id)
  const poleTops = usePoleTops(id)
  const birdSettings = useBirdSettings()
  const land = useLand(placeId ?? null)
  const asked = [nests, incidents, protections, poleTops, birdSettings]
  const isFetching = asked.some(({ isLoading }) => isLoading) || land.isLoading

  const items = protections.data ?? NOTHING
  const choices = poleTops.data ?? NOTHING
  const settings = birdSettings.data?.settings ?? NO_SETTINGS
  const feeder = feederOf(opened, nests.data, incidents.data)
  const place = placeOf(feeder, land.data)
  const marks = marksOf(choices, items, settings)
  useEffect(() => {
    if (!isFetching) void assess(place, marks)
  }, [isFetching, place, marks])
  const { assessed, progress, error: fault } = useAssessedBirds()
  const known = assessed?.feederId === id ? assessed : null

  const error = asked.find((query) => query.error)?.error ?? fault
  const retry = () => {
    for (const query of asked) if (query.error) void query.refetch()
    if (fault) void assess(place, marks)
  }
  return {
    feeder,
    items,
    choices,
    settings,
    sites: sitesOf(feeder, choices),
    assessments: known?.assessments ?? NONE_ASSESSED,
    exposures: known?.exposures ?? NONE_ASSESSED,
    ranked: known?.ranked ?? NOTHING,
    place,
    marks,
    isLoading: isFetching || (known === null && error === null),
    progress,
    error,
    retry,
  }
}
