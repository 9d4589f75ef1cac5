import type { Protection } from '../../feeder/birds.ts'
import type { BirdSettings } from '../bird-settings.ts'
import { applyMeasures } from '../measures/apply-measures.ts'
import { hasFailed, isStanding, itemUse, itemUses } from '../measures/standing-items.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'
import { contactPairs, contactPairsOfSpecies, pairId } from '../pole-top/contact-pairs.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import { poleTopOf } from '../pole-top/pole-top-of.ts'
import type { BirdSize } from '../species/bird-species.ts'
import { birdSpecies, designSpecies, sizeOf } from '../species/shipped-species.ts'
import type { PoleAssessment, PoleState, SpeciesResult } from './pole-assessment.ts'
import { recordAgainstDrawing } from './record-against-drawing.ts'

/** What a bird can bridge on a pole as it stands, and the state that follows from it. */
export function assessPole(
  site: PoleSite,
  items: readonly Protection[],
  settings?: BirdSettings,
): PoleAssessment {
  const top = poleTopOf(site)
  return top ? assessTop({ site, top, items, settings }) : unknownPole(site)
}

interface Case {
  readonly site: PoleSite
  readonly top: PoleTop
  readonly items: readonly Protection[]
  readonly settings: BirdSettings | undefined
}

function assessTop({ site, top, items, settings }: Case): PoleAssessment {
  const size = sizeOf(designSpecies(settings), settings)
  const { standing, failed } = itemUses(top, items)
  const poleTop = applyMeasures(site, top, standing)
  const { pairs, bySpecies } = pairsBySpecies(poleTop, size, settings)
  const framed = poleTop === top ? pairs : contactPairs(top.parts, size)
  const asBefore = () =>
    failed.length === 0
      ? pairs
      : contactPairs(applyMeasures(site, top, [...standing, ...failed]).parts, size)
  return {
    poleId: site.pole.id,
    state: stateOf(framed, pairs, asBefore),
    poleTop,
    pairs,
    pairsAsFramed: framed.length,
    bySpecies,
    notes: [...recordAgainstDrawing(site.pole, framed, size), ...notesOnItems(top, items)],
  }
}

/** @param asBefore Pairs as they were while what failed still held. */
function stateOf(
  framed: readonly ContactPair[],
  left: readonly ContactPair[],
  asBefore: () => readonly ContactPair[],
): PoleState {
  if (left.length === 0) return framed.length === 0 ? 'separated' : 'covered'
  const before = new Set(asBefore().map(pairId))
  if (left.some((pair) => !before.has(pairId(pair)))) return 'failed'
  return left.length < framed.length ? 'partly done' : 'open'
}

/** The pairs of the design species, and what each species finds, in one go. */
function pairsBySpecies(
  { parts }: PoleTop,
  designSize: BirdSize,
  settings: BirdSettings | undefined,
): { pairs: ContactPair[]; bySpecies: SpeciesResult[] } {
  const species = birdSpecies(settings)
  const sizes = species.map((each) => sizeOf(each, settings))
  const [pairs = [], ...ofSpecies] = contactPairsOfSpecies(parts, [designSize, ...sizes])
  const bySpecies = species.map(({ id }, index) => ({
    speciesId: id,
    pairs: ofSpecies[index]?.length ?? 0,
    tightest: ofSpecies[index]?.[0] ?? null,
  }))
  return { pairs, bySpecies }
}

/** Items that the drawing can make nothing of would otherwise be passed over in silence. */
function notesOnItems(top: PoleTop, items: readonly Protection[]): string[] {
  return items
    .filter((item) => item.pole === top.poleId && (isStanding(item) || hasFailed(item)))
    .filter((item) => itemUse(top, item) === null)
    .map(
      ({ what }) =>
        `Nothing on the drawing is what “${what}” names, so it counts for nothing here; choose its kind and its parts.`,
    )
}

function unknownPole({ pole }: PoleSite): PoleAssessment {
  return {
    poleId: pole.id,
    state: 'unknown',
    poleTop: null,
    pairs: [],
    pairsAsFramed: 0,
    bySpecies: [],
    notes: ['Nothing is recorded from which the pole top could be drawn; choose how it is framed.'],
  }
}
