import type { Protection } from '../../feeder/birds.ts'
import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'
import { contactPairs, pairId } from '../pole-top/contact-pairs.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import { poleTopOf } from '../pole-top/pole-top-of.ts'
import { designSpecies, sizeOf } from '../species/shipped-species.ts'
import { applyMeasures } from './apply-measures.ts'
import { cheapestCovers } from './cheapest-covers.ts'
import { framingVariants } from './framing-variants.ts'
import type { MeasureSet, MeasureUse } from './measure.ts'
import { measureCatalogue } from './measure-catalogue.ts'
import { movingEquipment } from './possible-measures.ts'
import { FRAMING_MEASURES } from './reframe-site.ts'
import { itemUses } from './standing-items.ts'

/**
 * What closes the pairs of the design species that stand open on a pole: first the set that leaves
 * the fewest open, the cheapest of those; then others that are better at something. A kind costs the
 * same however many parts of the pole get it; what stands already costs nothing. Exact over all
 * covers and changes of the framing. Moving equipment is a decision of engineering: it comes first
 * only where it is the cheapest as well. Empty where nothing is to do.
 */
export function cheapestMeasures(
  site: PoleSite,
  items: readonly Protection[],
  settings?: BirdSettings,
): MeasureSet[] {
  const top = poleTopOf(site)
  return top ? setsFor({ site, top, standing: itemUses(top, items).standing, settings }) : []
}

interface Task {
  readonly site: PoleSite
  readonly top: PoleTop
  readonly standing: readonly MeasureUse[]
  readonly settings: BirdSettings | undefined
}

function setsFor({ site, top, standing, settings }: Task): MeasureSet[] {
  const size = sizeOf(designSpecies(settings), settings)
  const costOf = costsBy(settings)
  const now = applyMeasures(site, top, standing)
  const open = contactPairs(now.parts, size)
  if (open.length === 0) return []
  const setAfter = (changes: readonly MeasureUse[], parts: PoleTop['parts']) =>
    completed(changes, contactPairs(parts, size), costOf)
  const covers = completed([], open, costOf)
  const reframed = isFramingWorthTrying(open, covers, costOf)
    ? framingVariants(site, top, standing, size).map(({ changes, top: { parts } }) =>
        setAfter(changes, parts),
      )
    : []
  const moved = movingEquipment(site, now).map((use) =>
    setAfter([use], applyMeasures(site, top, [...standing, use]).parts),
  )
  return inOrder(covers, reframed, moved)
}

function costsBy(settings: BirdSettings | undefined): (kind: MeasureKind) => number {
  const costs = new Map(measureCatalogue(settings).map(({ kind, costUsd }) => [kind, costUsd]))
  return (kind) => costs.get(kind) ?? 0
}

function completed(
  changes: readonly MeasureUse[],
  pairs: readonly ContactPair[],
  costOf: (kind: MeasureKind) => number,
): MeasureSet {
  const covers = cheapestCovers(pairs, costOf)
  return {
    uses: [...changes, ...covers.uses],
    costUsd: changes.reduce((sum, { kind }) => sum + costOf(kind), covers.costUsd),
    leftOpen: covers.leftOpen.map(pairId),
  }
}

/** It is drawn anew only where that may close more, cost less, or spare covers on the line. */
function isFramingWorthTrying(
  open: readonly ContactPair[],
  covers: MeasureSet,
  costOf: (kind: MeasureKind) => number,
): boolean {
  const isCarried = ({ kind }: ContactPair['partA']) =>
    kind === 'conductor' || kind === 'dead-end clamp' || kind === 'insulator'
  return (
    covers.leftOpen.length > 0 ||
    FRAMING_MEASURES.some((kind) => costOf(kind) < covers.costUsd) ||
    open.some(({ partA, partB }) => isCarried(partA) || isCarried(partB))
  )
}

function inOrder(
  covers: MeasureSet,
  reframed: readonly MeasureSet[],
  moved: readonly MeasureSet[],
): MeasureSet[] {
  const [framing] = [...reframed].sort(betterFirst)
  const usual = [covers, ...(framing && isOtherWay(framing, covers) ? [framing] : [])].sort(
    betterFirst,
  )
  const [first = covers] = usual
  const moving = moved.filter(
    (set) => set.leftOpen.length < first.leftOpen.length || set.costUsd < first.costUsd,
  )
  const isFirst = ({ costUsd, leftOpen }: MeasureSet) =>
    costUsd < first.costUsd && leftOpen.length <= first.leftOpen.length
  return [...moving.filter(isFirst), ...usual, ...moving.filter((set) => !isFirst(set))]
}

function betterFirst(one: MeasureSet, other: MeasureSet): number {
  return one.leftOpen.length - other.leftOpen.length || one.costUsd - other.costUsd
}

/** Better at something: closes more, costs less, or needs fewer kinds of covers that age. */
function isOtherWay(framing: MeasureSet, covers: MeasureSet): boolean {
  const changes = framing.uses.filter(({ dimensionM }) => dimensionM !== undefined).length
  return (
    framing.leftOpen.length < covers.leftOpen.length ||
    framing.costUsd < covers.costUsd ||
    framing.uses.length - changes < covers.uses.length
  )
}
