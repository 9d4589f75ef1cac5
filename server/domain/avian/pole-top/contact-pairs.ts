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
  const perchFor = perchFinder(parts, electrodes, mostM)
  electrodes.forEach((a, i) => {
    for (let j = i + 1; j < electrodes.length; j++) {
      const b = electrodes[j]
      if (!b || a.part.potential === b.part.potential) continue
      if (leastUpM(a.segment, b.segment) >= highestM) continue
      if (distanceBoundM(a.segment, b.segment) >= mostM) continue
      const nearest = nearestPlaces(a.segment, b.segment, 1, Number.POSITIVE_INFINITY)
      sizes.forEach((size, at) => {
        const pair = pairFor(a, b, nearest, size)
        const perch = pair && perchFor(i, j)
        if (perch && perch.reachM < size.breadthM) found[at]?.push({ ...pair, perchId: perch.id })
      })
    }
  })
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
  return byPotential || (one.id < other.id ? -1 : one.id > other.id ? 1 : 0)
}

/** Null where a bird of that size cannot span the pair. */
function pairFor(
  { part: partA, segment: a }: Electrode,
  { part: partB, segment: b }: Electrode,
  nearest: Places,
  { breadthM, heightM }: BirdSize,
): Omit<ContactPair, 'perchId'> | null {
  const places = easiestPlaces(a, b, nearest, breadthM, heightM)
  if (!places) return null
  const { s, t } = places
  const share = measure(a, b, s, t, breadthM, heightM)
  if (share >= 1 - ROUNDING) return null
  const horizontalM = acrossM(a, b, s, t)
  const verticalM = upM(a, b, s, t)
  return {
    partA,
    partB,
    horizontalM,
    verticalM,
    distanceM: Math.hypot(horizontalM, verticalM),
    at: [pointOn(a, s), pointOn(b, t)],
    share,
  }
}

/**
 * The nearest places are also the easiest ones where the distance there takes more of the bird than
 * the height does, since no other place has less distance. Only else must they be sought.
 */
function easiestPlaces(
  a: Segment,
  b: Segment,
  nearest: Places,
  breadthM: number,
  heightM: number,
): Places | null {
  const across = acrossM(a, b, nearest.s, nearest.t)
  const up = upM(a, b, nearest.s, nearest.t)
  const ofBreadth = Math.sqrt(across * across + up * up) / breadthM
  if (ofBreadth >= 1 || leastUpM(a, b) >= heightM) return null
  const isSettled = up / heightM <= ofBreadth || (a.slope !== 'slanted' && b.slope !== 'slanted')
  return isSettled ? nearest : nearestPlaces(a, b, breadthM, heightM)
}

function pointOn({ xM, yM, zM, dxM, dyM, dzM }: Segment, share: number): Point {
  return [xM + share * dxM, yM + share * dyM, zM + share * dzM]
}

interface Perch {
  readonly id: string
  /** Farther of the two distances from it to the parts. */
  readonly reachM: number
}

/** Finds the perch from which both parts are nearest; each distance is reckoned once, when asked for. */
function perchFinder(
  parts: readonly Part[],
  electrodes: readonly Electrode[],
  mostM: number,
): (i: number, j: number) => Perch | null {
  const perches = parts
    .filter(({ canPerch }) => canPerch)
    .map((part) => ({ id: part.id, segment: segmentOf(standingSurface(part)) }))
  const known = electrodes.map((): Float64Array | null => null)
  const distances = (index: number): Float64Array => {
    const before = known[index]
    if (before) return before
    const segment = electrodes[index]?.segment
    const now = Float64Array.from(perches, (perch) =>
      segment ? distanceM(perch.segment, segment, mostM) : Number.POSITIVE_INFINITY,
    )
    known[index] = now
    return now
  }
  return (i, j) => {
    const [toA, toB] = [distances(i), distances(j)]
    let best: Perch | null = null
    perches.forEach(({ id }, at) => {
      const reachM = Math.max(toA[at] ?? 0, toB[at] ?? 0)
      if (best === null || reachM < best.reachM) best = { id, reachM }
    })
    return best
  }
}

/** Between surfaces; infinite where more than `mostM`. */
function distanceM(a: Segment, b: Segment, mostM: number): number {
  if (distanceBoundM(a, b) >= mostM) return Number.POSITIVE_INFINITY
  const { s, t } = nearestPlaces(a, b, 1, Number.POSITIVE_INFINITY)
  return measure(a, b, s, t, 1, Number.POSITIVE_INFINITY)
}

function tightestFirst(one: ContactPair, other: ContactPair): number {
  return one.share - other.share || (pairId(one) < pairId(other) ? -1 : 1)
}
