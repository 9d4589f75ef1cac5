import type { Protection } from '../../feeder/birds.ts'
import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { ContactPair } from '../pole-top/contact-pair.ts'
import { contactPairs, pairId } from '../pole-top/contact-pairs.ts'
import type { Part } from '../pole-top/part.ts'
import type { PoleSite, PoleTop } from '../pole-top/pole-top.ts'
import { poleTopOf } from '../pole-top/pole-top-of.ts'
import type { BirdSize } from '../species/bird-species.ts'
import { designSpecies, sizeOf } from '../species/shipped-species.ts'
import { applyMeasures } from './apply-measures.ts'
import { cheapestCovers } from './cheapest-covers.ts'
import { framingVariants } from './framing-variants.ts'
import type { MeasureSet, MeasureUse } from './measure.ts'
import { measureCatalogue } from './measure-catalogue.ts'
import { movingEquipment } from './possible-measures.ts'
import { FRAMING_CHANGES } from './reframe-site.ts'
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
  const task = taskOf(site, items, settings)
  return task ? setsOf(task, isReframingOfUse(task), true) : []
}

/** The first of them alone, for many poles at once: what cannot come first is not drawn. */
export function cheapestSet(
  site: PoleSite,
  items: readonly Protection[],
  settings?: BirdSettings,
): MeasureSet | null {
  const task = taskOf(site, items, settings)
  if (!task) return null
  const { covers, costOf } = task
  const isMovingCheaper = costOf('equipment moved to the ground') < covers.costUsd
  return setsOf(task, mayReframingComeFirst(task), isMovingCheaper)[0] ?? null
}

interface Task {
  readonly site: PoleSite
  readonly top: PoleTop
  readonly standing: readonly MeasureUse[]
  readonly size: BirdSize
  readonly costOf: CostOf
  /** With what stands already. */
  readonly now: PoleTop
  readonly open: readonly ContactPair[]
  /** The best without another framing. */
  readonly covers: MeasureSet
}

type CostOf = (kind: MeasureKind) => number

/** Null where nothing is to do, or nothing is known. */
function taskOf(
  site: PoleSite,
  items: readonly Protection[],
  settings: BirdSettings | undefined,
): Task | null {
  const top = poleTopOf(site)
  if (!top) return null
  const { standing } = itemUses(top, items)
  const size = sizeOf(designSpecies(settings), settings)
  const now = applyMeasures(site, top, standing)
  const open = contactPairs(now.parts, size)
  if (open.length === 0) return null
  const costOf = costsBy(settings)
  return { site, top, standing, size, costOf, now, open, covers: completed([], open, costOf) }
}

function setsOf(task: Task, withReframing: boolean, withMoving: boolean): MeasureSet[] {
  const { site, top, standing, size, costOf, now } = task
  const setAfter = (changes: readonly MeasureUse[], { parts }: PoleTop) =>
    completed(changes, contactPairs(parts, size), costOf)
  const reframed = withReframing
    ? framingVariants(site, top, standing, size).map((variant) =>
        setAfter(variant.changes, variant.top),
      )
    : []
  const moved = withMoving
    ? movingEquipment(site, now).map((use) =>
        setAfter([use], applyMeasures(site, top, [...standing, use])),
      )
    : []
  return inOrder(task.covers, reframed, moved)
}

function costsBy(settings: BirdSettings | undefined): CostOf {
  const costs = new Map(measureCatalogue(settings).map(({ kind, costUsd }) => [kind, costUsd]))
  return (kind) => costs.get(kind) ?? 0
}

function completed(
  changes: readonly MeasureUse[],
  pairs: readonly ContactPair[],
  costOf: CostOf,
): MeasureSet {
  const covers = cheapestCovers(pairs, costOf)
  return {
    uses: [...changes, ...covers.uses],
    costUsd: changes.reduce((sum, { kind }) => sum + costOf(kind), covers.costUsd),
    leftOpen: covers.leftOpen.map(pairId),
  }
}

/** Another framing may close more, cost less, or spare covers on the line. */
function isReframingOfUse(task: Task): boolean {
  return (
    mayReframingComeFirst(task) ||
    task.open.some(({ partA, partB }) => isCarried(partA) || isCarried(partB))
  )
}

function isCarried({ kind }: Part): boolean {
  return kind === 'conductor' || kind === 'dead-end clamp'
}

/** The least that it can cost: the cheapest change, and covers for what no change of it moves. */
function mayReframingComeFirst({ covers, costOf, open }: Task): boolean {
  if (covers.leftOpen.length > 0) return true
  const changeUsd = Math.min(...FRAMING_CHANGES.map(costOf))
  return changeUsd + cheapestCovers(open.filter(isOnOneUnit), costOf).costUsd < covers.costUsd
}

/** Parts of one bushing, cutout or arrester and what holds it, on which the bird stands as well. */
function isOnOneUnit({ partA, partB, perchId }: ContactPair): boolean {
  const unit = partA.id.slice(0, partA.id.lastIndexOf('-') + 1)
  return partB.potential === 'grounded' && partB.id === perchId && partB.id.startsWith(unit)
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
