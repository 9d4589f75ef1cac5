import type { Feeder } from '../../feeder/feeder.ts'
import { assessFeeder, type BirdRecordOfFeeder, itemsByPole } from '../assessment/assess-feeder.ts'
import type { PoleAssessment } from '../assessment/pole-assessment.ts'
import type { Exposure, RankedPole } from '../exposure/exposure.ts'
import { exposureOfPoles } from '../exposure/exposure-of-poles.ts'
import { rankPoles } from '../exposure/rank-poles.ts'
import type { Surroundings } from '../exposure/surroundings.ts'
import { cheapestSet } from '../measures/cheapest-measures.ts'
import type { MeasureSet } from '../measures/measure.ts'
import { poleSites } from '../pole-top/pole-sites.ts'
import type { OnProgress } from './plan-programme.ts'

export interface BirdsOfFeeder {
  readonly assessments: readonly PoleAssessment[]
  /** The best set of each pole on which something is open. */
  readonly cheapest: ReadonlyMap<string, MeasureSet>
  readonly exposures: readonly Exposure[]
  readonly ranked: readonly RankedPole[]
}

/** Poles between two words on how far it is. */
const STEP = 20

/**
 * What stands open on every real pole, what closes it best, and which pole comes first.
 *
 * @param onProgress Told now and then; whatever it throws ends the work and comes through.
 */
export function birdsOfFeeder(
  feeder: Feeder,
  record: BirdRecordOfFeeder,
  surroundings?: Surroundings,
  onProgress: OnProgress = () => undefined,
): BirdsOfFeeder {
  const assessments = assessFeeder(feeder, record, (done, of) => onProgress(done, of, 'pole tops'))
  const open = new Set(
    assessments.filter(({ pairs }) => pairs.length > 0).map(({ poleId }) => poleId),
  )
  const items = itemsByPole(record.protections)
  const cheapest = new Map<string, MeasureSet>()
  const sites = poleSites(feeder, record.choices).filter(({ pole }) => open.has(pole.id))
  for (const [done, site] of sites.entries()) {
    if (done % STEP === 0) onProgress(done, sites.length, 'measures')
    const best = cheapestSet(site, items.get(site.pole.id) ?? [], record.settings)
    if (best) cheapest.set(site.pole.id, best)
  }
  const exposures = exposureOfPoles(feeder, record.settings, surroundings)
  return { assessments, cheapest, exposures, ranked: rankPoles(assessments, exposures) }
}
