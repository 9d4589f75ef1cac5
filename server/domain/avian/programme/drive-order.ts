import { distance } from '@turf/turf'
import type { Position } from '../../feeder/geometry.ts'

export interface Stop {
  readonly id: string
  readonly at: Position
}

export interface Drive<Place extends Stop> {
  readonly stops: readonly Place[]
  /** From the first stop to the last, metres, straight. */
  readonly driveM: number
}

/** Up to so many stops every order is considered. */
const MOST_EXACT = 9
/** Passes of improvement over a long round; each makes it shorter or is the last. */
const MOST_PASSES = 50

/**
 * A short way over all stops, begin and end free: the shortest for up to nine (Held and Karp's
 * dynamic programming, 1962, from memory), beyond it the nearest neighbour improved by turning parts
 * around (2-opt; Croes 1958, from memory).
 */
export function driveOrder<Place extends Stop>(stops: readonly Place[]): Drive<Place> {
  const waysM = stops.map((one) =>
    Float64Array.from(stops, (other) => distance(one.at, other.at, { units: 'meters' })),
  )
  const order =
    stops.length <= MOST_EXACT ? shortestOrder(waysM) : improved(nearestOrder(waysM), waysM)
  return {
    stops: order.flatMap((index) => stops[index] ?? []),
    driveM: lengthM(order, waysM),
  }
}

type Ways = readonly Float64Array[]

const wayM = (ways: Ways, from: number, to: number): number => ways[from]?.[to] ?? 0

function lengthM(order: readonly number[], ways: Ways): number {
  return order
    .slice(1)
    .reduce((sum, stop, index) => sum + wayM(ways, order[index] ?? stop, stop), 0)
}

/** Shortest way over each set of stops by its last stop; sets are bit masks. */
function shortestOrder(ways: Ways): number[] {
  const count = ways.length
  const sets = 1 << count
  const bestM = new Float64Array(sets * count).fill(Number.POSITIVE_INFINITY)
  const before = new Int8Array(sets * count).fill(-1)
  for (let stop = 0; stop < count; stop += 1) bestM[(1 << stop) * count + stop] = 0
  for (let set = 1; set < sets; set += 1) {
    for (let last = 0; last < count; last += 1) {
      const soFarM = bestM[set * count + last] ?? Number.POSITIVE_INFINITY
      if (soFarM === Number.POSITIVE_INFINITY) continue
      for (let next = 0; next < count; next += 1) {
        if (set & (1 << next)) continue
        const at = (set | (1 << next)) * count + next
        const reachedM = soFarM + wayM(ways, last, next)
        if (reachedM >= (bestM[at] ?? 0)) continue
        bestM[at] = reachedM
        before[at] = last
      }
    }
  }
  return backward(bestM, before, count)
}

function backward(bestM: Float64Array, before: Int8Array, count: number): number[] {
  if (count === 0) return []
  let set = (1 << count) - 1
  const lastOf = Array.from({ length: count }, (_, stop) => stop)
  let last = lastOf.reduce((best, stop) =>
    (bestM[set * count + stop] ?? 0) < (bestM[set * count + best] ?? 0) ? stop : best,
  )
  const order: number[] = []
  while (last >= 0) {
    order.push(last)
    const previous = before[set * count + last] ?? -1
    set &= ~(1 << last)
    last = previous
  }
  return order.reverse()
}

/** From the stop farthest from the first, always on to the nearest. */
function nearestOrder(ways: Ways): number[] {
  const left = new Set(ways.keys())
  let at = [...left].reduce((far, stop) => (wayM(ways, 0, stop) > wayM(ways, 0, far) ? stop : far))
  const order = [at]
  left.delete(at)
  while (left.size > 0) {
    const from = at
    at = [...left].reduce((near, stop) =>
      wayM(ways, from, stop) < wayM(ways, from, near) ? stop : near,
    )
    order.push(at)
    left.delete(at)
  }
  return order
}

function improved(start: readonly number[], ways: Ways): number[] {
  let order = [...start]
  for (let pass = 0; pass < MOST_PASSES; pass += 1) {
    const turned = turnedOnce(order, ways)
    if (!turned) return order
    order = turned
  }
  return order
}

/** One pass that turns every part around that gets shorter by it; null where none does. */
function turnedOnce(before: readonly number[], ways: Ways): number[] | null {
  const order = [...before]
  let isShorter = false
  for (let first = 0; first < order.length - 1; first += 1) {
    for (let last = first + 1; last < order.length; last += 1) {
      if (savedM(order, first, last, ways) <= 1e-6) continue
      order.splice(first, last - first + 1, ...order.slice(first, last + 1).reverse())
      isShorter = true
    }
  }
  return isShorter ? order : null
}

/** Saved by turning the part from first to last; at an open end nothing joins it. */
function savedM(order: readonly number[], first: number, last: number, ways: Ways): number {
  const [before, after] = [order[first - 1], order[last + 1]]
  const [one, other] = [order[first] ?? 0, order[last] ?? 0]
  const ahead = before === undefined ? 0 : wayM(ways, before, one) - wayM(ways, before, other)
  const behind = after === undefined ? 0 : wayM(ways, other, after) - wayM(ways, one, after)
  return ahead + behind
}
