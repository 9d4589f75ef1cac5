import type { BirdSize } from '../species/bird-species.ts'
import type { ContactPair } from './contact-pair.ts'
import { measure, nearestPlaces, type Places } from './nearest-places.ts'
import { isElectrode, type Part, type Point } from './part.ts'
import { acrossM, distanceBoundM, leastUpM, type Segment, segmentOf, upM } from './segment.ts'
import { standingSurface } from './standing-surface.ts'

/** A gap that just reaches the size of the bird is sufficient, also after decimals were lost. */
const ROUNDING = 1e-6

/**
 * All pairs of bare parts of different potential that a bird of this size can touch at once while it
 * lands on, stands on or leaves a perch, tightest first. It bridges a pair when both its breadth is
 * more than the straight line between the surfaces and its height more than the difference of
 * heights, at the places where that takes least of it. The perch must lie within one breadth of both
 * parts: an assumption, on the safe side.
 */
export function contactPairs(parts: readonly Part[], size: BirdSize): ContactPair[] {
  return contactPairsOfSpecies(parts, [size])[0] ?? []
}

/** The same for several sizes, in their order, at little more than the price of one. */
export function contactPairsOfSpecies(
  parts: readonly Part[],
  sizes: readonly BirdSize[],
): ContactPair[][] {
  const found: ContactPair[][] = sizes.map(() => [])
  const mostM = Math.max(0, ...sizes.map(({ breadthM }) => breadthM))
  const highestM = Math.max(0, ...sizes.map(({ heightM }) => heightM))
  const electrodes = parts.filter(isElectrode).map(electrode).sort(inOrder)
  const perches = new NearestPerches(parts, electrodes, mostM)
  for (let i = 0; i < electrodes.length; i++) {
    for (let j = i + 1; j < electrodes.length; j++) {
      const [a, b] = [electrodes[i], electrodes[j]]
      if (!a || !b || a.part.potential === b.part.potential) continue
      const leastUp = leastUpM(a.segment, b.segment)
      if (leastUp >= highestM || distanceBoundM(a.segment, b.segment) >= mostM) continue
      const nearest = gapAt(a, b, nearestPlaces(a.segment, b.segment, 1, Number.POSITIVE_INFINITY))
      if (nearest.distanceM >= mostM) continue
      const perchAt = perches.nearest(i, j)
      const reachM = perches.reachM(perchAt, i, j)
      for (let at = 0; at < sizes.length; at++) {
        const size = sizes[at]
        if (!size || reachM >= size.breadthM || leastUp >= size.heightM) continue
        const gap = easiestGap(a, b, nearest, size)
        const share = shareOf(gap, size)
        if (share >= 1 - ROUNDING) continue
        found[at]?.push(pairOf(a.part, b.part, gap, share, perches.id(perchAt)))
      }
    }
  }
  for (const pairs of found) pairs.sort(tightestFirst)
  return found
}

/** Both ids, sorted, so that a pair has one id whichever part comes first. */
export function pairId({ partA, partB }: Pick<ContactPair, 'partA' | 'partB'>): string {
  return partA.id < partB.id ? `${partA.id}~${partB.id}` : `${partB.id}~${partA.id}`
}

interface Electrode {
  readonly part: Part
  readonly segment: Segment
}

function electrode(part: Part): Electrode {
  return { part, segment: segmentOf(part) }
}

/** Energized before grounded, then by id: the same answer in whatever order the parts come. */
function inOrder({ part: one }: Electrode, { part: other }: Electrode): number {
  const byPotential = Number(one.potential === 'grounded') - Number(other.potential === 'grounded')
  return byPotential || compare(one.id, other.id)
}

interface Gap {
  readonly horizontalM: number
  readonly verticalM: number
  readonly distanceM: number
  readonly at: readonly [Point, Point]
}

function gapAt({ segment: a }: Electrode, { segment: b }: Electrode, { s, t }: Places): Gap {
  const horizontalM = acrossM(a, b, s, t)
  const verticalM = upM(a, b, s, t)
  return {
    horizontalM,
    verticalM,
    distanceM: Math.sqrt(horizontalM * horizontalM + verticalM * verticalM),
    at: [pointOn(a, s), pointOn(b, t)],
  }
}

function shareOf({ distanceM, verticalM }: Gap, { breadthM, heightM }: BirdSize): number {
  return Math.max(distanceM / breadthM, verticalM / heightM)
}

/**
 * The nearest places are also the easiest ones where the distance there takes more of the bird than
 * the height does, since no other place has less distance; and where no part is slanted. Only else
 * must they be sought.
 */
function easiestGap(a: Electrode, b: Electrode, nearest: Gap, size: BirdSize): Gap {
  const { breadthM, heightM } = size
  const isSettled =
    nearest.verticalM / heightM <= nearest.distanceM / breadthM ||
    nearest.distanceM >= breadthM ||
    (a.segment.slope !== 'slanted' && b.segment.slope !== 'slanted')
  return isSettled ? nearest : gapAt(a, b, nearestPlaces(a.segment, b.segment, breadthM, heightM))
}

function pairOf(partA: Part, partB: Part, gap: Gap, share: number, perchId: string): ContactPair {
  const { horizontalM, verticalM, distanceM, at } = gap
  return { partA, partB, horizontalM, verticalM, distanceM, at, share, perchId }
}

function pointOn({ xM, yM, zM, dxM, dyM, dzM }: Segment, share: number): Point {
  return [xM + share * dxM, yM + share * dyM, zM + share * dzM]
}

/** Finds the perch from which both parts of a pair are nearest; each distance is reckoned once. */
class NearestPerches {
  readonly #perches: readonly { readonly id: string; readonly segment: Segment }[]
  readonly #electrodes: readonly Electrode[]
  readonly #mostM: number
  /** Of each electrode to each perch, metres; empty until asked for. */
  readonly #distancesM: number[][]

  constructor(parts: readonly Part[], electrodes: readonly Electrode[], mostM: number) {
    this.#perches = parts
      .filter(({ canPerch }) => canPerch)
      .map((part) => ({ id: part.id, segment: segmentOf(standingSurface(part)) }))
    this.#electrodes = electrodes
    this.#mostM = mostM
    this.#distancesM = electrodes.map(() => [])
  }

  /** Index of the perch; -1 where there is none. */
  nearest(i: number, j: number): number {
    let best = -1
    for (let at = 0; at < this.#perches.length; at++) {
      if (best < 0 || this.reachM(at, i, j) < this.reachM(best, i, j)) best = at
    }
    return best
  }

  /** The farther of the two distances from a perch to the parts of a pair; infinite without a perch. */
  reachM(perchAt: number, i: number, j: number): number {
    const toA = this.#distances(i)[perchAt] ?? Number.POSITIVE_INFINITY
    const toB = this.#distances(j)[perchAt] ?? Number.POSITIVE_INFINITY
    return Math.max(toA, toB)
  }

  id(perchAt: number): string {
    return this.#perches[perchAt]?.id ?? ''
  }

  #distances(index: number): readonly number[] {
    const known = this.#distancesM[index] ?? []
    const segment = this.#electrodes[index]?.segment
    if (known.length === 0 && segment) {
      for (const perch of this.#perches) known.push(distanceM(perch.segment, segment, this.#mostM))
    }
    return known
  }
}

/** Between surfaces; infinite where more than `mostM`. */
function distanceM(a: Segment, b: Segment, mostM: number): number {
  if (distanceBoundM(a, b) >= mostM) return Number.POSITIVE_INFINITY
  const { s, t } = nearestPlaces(a, b, 1, Number.POSITIVE_INFINITY)
  return measure(a, b, s, t, 1, Number.POSITIVE_INFINITY)
}

function tightestFirst(one: ContactPair, other: ContactPair): number {
  return (
    one.share - other.share ||
    compare(one.partA.id, other.partA.id) ||
    compare(one.partB.id, other.partB.id)
  )
}

function compare(one: string, other: string): number {
  return one < other ? -1 : Number(one > other)
}
