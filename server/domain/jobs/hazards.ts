import { COVERS_ARE_NO_INSULATION } from '../avian/measures/measure-catalogue.ts'
import { accessHazards } from './access-hazards.ts'
import { approachHazards } from './approach-hazards.ts'
import { backfeedHazards } from './backfeed-hazards.ts'
import { bypassHazards } from './bypass-hazards.ts'
import { cutTo } from './cut-to.ts'
import type { DraftScene } from './draft-scene.ts'
import type { Hazard } from './job-plan.ts'
import { nestHazards } from './nest-hazards.ts'
import { weightHazards } from './weight-hazards.ts'

/** As `Hazard` holds. */
const MOST_LETTERS = 600

/**
 * What a crew has to know before it starts, each with its source. The utility's own safety rules and
 * qualified workers govern; this list is not complete and cannot be.
 */
export function hazardsOf(scene: DraftScene): Hazard[] {
  const hazards = [
    ...approachHazards(scene),
    ...bypassHazards(scene),
    ...backfeedHazards(scene),
    ...weightHazards(scene),
    ...coverHazards(scene),
    ...nestHazards(scene),
    ...accessHazards(scene),
  ]
  return hazards.map((hazard) => ({ ...hazard, what: cutTo(MOST_LETTERS, hazard.what) }))
}

function coverHazards({ feeder, kind, works }: DraftScene): Hazard[] {
  const poles = new Set(works.map(({ pole }) => pole))
  const hasCovers =
    kind === 'inspection' ||
    works.some(({ measures }) => measures.length > 0) ||
    feeder.protections.some(({ pole, state }) => state === 'on' && poles.has(pole))
  return hasCovers
    ? [{ about: 'other', what: COVERS_ARE_NO_INSULATION, source: 'common practice, no source' }]
    : []
}
