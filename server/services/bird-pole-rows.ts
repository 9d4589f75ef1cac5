import { itemsByPole } from '#domain/avian/assessment/assess-feeder.ts'
import { assessPole } from '#domain/avian/assessment/assess-pole.ts'
import { inspectionDue, isInspectionOverdue } from '#domain/avian/assessment/inspection-due.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { Exposure } from '#domain/avian/exposure/exposure.ts'
import { exposureOfPoles } from '#domain/avian/exposure/exposure-of-poles.ts'
import { hazardOf } from '#domain/avian/exposure/hazard.ts'
import type { Surroundings } from '#domain/avian/exposure/surroundings.ts'
import { cheapestSet } from '#domain/avian/measures/cheapest-measures.ts'
import { pairInWords } from '#domain/avian/pole-top/pair-words.ts'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '#domain/avian/pole-top/pole-top.ts'
import { designSpecies } from '#domain/avian/species/shipped-species.ts'
import type { Protection } from '#domain/feeder/birds.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { BirdSettings, PoleTopChoice } from './bird-ports.ts'
import type { PlacedRow } from './placed-rows.ts'

export const BIRD_POLE_COLUMNS = [
  'state',
  'tightest_pair',
  'tightest_distance_m',
  'open_pairs',
  'pairs_as_framed',
  'pairs',
  'hazard',
  'exposure',
  'rank',
  'exposure_reasons',
  'cheapest_measures',
  'cheapest_cost_usd',
  'cheapest_leaves_open',
  'items',
  'inspections_due',
  'inspections_overdue',
  'notes',
] as const

export interface BirdPoleInput {
  /** With the items, nests and finds of the record. */
  readonly feeder: Feeder
  readonly choices: readonly PoleTopChoice[]
  readonly settings: BirdSettings
  readonly surroundings?: Surroundings | undefined
  /** Calendar date, for what is overdue. */
  readonly today: string
}

/**
 * What birds can bridge on each real pole, in the feeder's order. One pole is computed at a time,
 * between other requests, and nothing of it once nobody takes it any more.
 */
export async function* birdPoleRows(input: BirdPoleInput): AsyncGenerator<PlacedRow> {
  const { feeder, choices, settings, surroundings } = input
  const exposures = new Map(
    exposureOfPoles(feeder, settings, surroundings).map((exposure) => [exposure.poleId, exposure]),
  )
  const items = itemsByPole(feeder.protections)
  for (const site of poleSites(feeder, choices)) {
    yield rowOf(site, items.get(site.pole.id) ?? [], exposures.get(site.pole.id), input)
    await new Promise((resolve) => setImmediate(resolve))
  }
}

function rowOf(
  site: PoleSite,
  items: readonly Protection[],
  exposure: Exposure | undefined,
  { settings, today }: BirdPoleInput,
): PlacedRow {
  const assessment = assessPole(site, items, settings)
  const due = items.flatMap((item) => dueOf(item, settings))
  const late = items.filter((item) => isInspectionOverdue(item, today, settings))
  return {
    id: site.pole.id,
    at: site.pole.at,
    properties: {
      state: assessment.state,
      ...pairsOf(assessment, settings),
      ...rankOf(assessment, exposure),
      ...cheapestOf(site, items, assessment, settings),
      items: items.map(({ what, state }) => `${what}, ${state}`),
      inspections_due: due,
      inspections_overdue: late.length,
      notes: assessment.notes,
    },
  }
}

function dueOf(item: Protection, settings: BirdSettings): string[] {
  const due = inspectionDue(item, settings)
  return due ? [`${item.what}, ${due.dueOn}`] : []
}

function pairsOf({ pairs, pairsAsFramed, state }: PoleAssessment, settings: BirdSettings) {
  if (state === 'unknown') return {}
  const { name } = designSpecies(settings)
  const [tightest] = pairs
  return {
    ...(tightest && {
      tightest_pair: pairInWords(tightest, name, true),
      tightest_distance_m: rounded(tightest.distanceM),
    }),
    open_pairs: pairs.length,
    pairs_as_framed: pairsAsFramed,
    pairs: pairs.map((pair) => pairInWords(pair, name, true)),
  }
}

function rankOf(assessment: PoleAssessment, exposure: Exposure | undefined) {
  const hazard = hazardOf(assessment)
  return {
    ...(hazard !== null && { hazard: rounded(hazard) }),
    ...(exposure && { exposure: rounded(exposure.score), exposure_reasons: exposure.reasons }),
    ...(hazard !== null && exposure && { rank: rounded(hazard * exposure.score) }),
  }
}

/** Without a cost where nothing is known that would close a pair. */
function cheapestOf(
  site: PoleSite,
  items: readonly Protection[],
  { state, pairs }: PoleAssessment,
  settings: BirdSettings,
) {
  if (state === 'unknown') return {}
  if (pairs.length === 0) {
    return { cheapest_measures: [], cheapest_cost_usd: 0, cheapest_leaves_open: 0 }
  }
  const best = cheapestSet(site, items, settings)
  if (!best || best.uses.length === 0) return { cheapest_leaves_open: pairs.length }
  return {
    cheapest_measures: [...new Set(best.uses.map(({ kind }) => kind))],
    cheapest_cost_usd: best.costUsd,
    cheapest_leaves_open: best.leftOpen.length,
  }
}

/** To the millimetre, or a thousandth of a share. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000
}
