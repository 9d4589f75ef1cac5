import type { Position } from '#domain/feeder/geometry.ts'
import { wayTo } from '../../jobs/places/bearing.ts'

export interface Stop {
  readonly pole: string
  readonly at: Position
}

export interface OrderedStop extends Stop {
  /** Straight from the stop before, or from where the round starts; null for a first one without it. */
  readonly fromLastM: number | null
}

/**
 * The order in which to go round the poles of a job: nearest next, then turned about piece by piece
 * as long as that makes the whole way shorter (the 2-opt exchange, common for open routes). Straight
 * lines; roads may ask for another order.
 *
 * @param start where the crew is; without it the round may begin at any pole, and does at an end
 */
export function orderRound(stops: readonly Stop[], start: Position | null): OrderedStop[] {
  const tries = start
    ? [withWay(shortened(nearestNext(stops, start), start), start)]
    : firstStops(stops).map((first) => {
        const others = stops.filter((stop) => stop !== first)
        return withWay(shortened([first, ...nearestNext(others, first.at)], null), null)
      })
  return tries.reduce(
    (best, next) => (roundLengthM(next) < roundLengthM(best) ? next : best),
    tries[0] ?? [],
  )
}

function withWay(order: readonly Stop[], start: Position | null): OrderedStop[] {
  return order.map((stop, index) => {
    const before = index === 0 ? start : order[index - 1]?.at
    return { ...stop, fromLastM: before ? metres(before, stop.at) : null }
  })
}

/** Where a round without a start may begin: as listed, or at one of two stops far from each other. */
function firstStops(stops: readonly Stop[]): Stop[] {
  const [listed] = stops
  if (!listed) return []
  const far = farthest(stops, listed)
  return [...new Set([listed, far, farthest(stops, far)])]
}

function farthest(stops: readonly Stop[], from: Stop): Stop {
  return stops.reduce((best, stop) =>
    metres(from.at, stop.at) > metres(from.at, best.at) ? stop : best,
  )
}

export function roundLengthM(order: readonly OrderedStop[]): number {
  return order.reduce((sum, { fromLastM }) => sum + (fromLastM ?? 0), 0)
}

const metres = (a: Position, b: Position): number => wayTo(a, b).distanceM

function nearestNext(stops: readonly Stop[], start: Position): Stop[] {
  const left = [...stops]
  const order: Stop[] = []
  let here = start
  while (left.length > 0) {
    const [next] = left.splice(indexOfNearest(left, here), 1)
    if (!next) break
    order.push(next)
    here = next.at
  }
  return order
}

function indexOfNearest(stops: readonly Stop[], from: Position): number {
  let best = 0
  let leastM = Number.POSITIVE_INFINITY
  stops.forEach(({ at }, index) => {
    const distanceM = metres(from, at)
    if (distanceM < leastM) {
      leastM = distanceM
      best = index
    }
  })
  return best
}

/** What an exchange must save to be worth it, so that equal ways do not go on forever. */
const LEAST_SAVED_M = 0.01

function shortened(given: readonly Stop[], start: Position | null): Stop[] {
  let order = [...given]
  for (let isShorter = true; isShorter; ) {
    isShorter = false
    for (let i = 0; i < order.length - 1; i++) {
      for (let j = i + 1; j < order.length; j++) {
        if (savedByTurning(order, i, j, start) <= LEAST_SAVED_M) continue
        order = [...order.slice(0, i), ...order.slice(i, j + 1).reverse(), ...order.slice(j + 1)]
        isShorter = true
      }
    }
  }
  return order
}

/** Metres saved by going through the stops from i to j the other way round. */
function savedByTurning(
  order: readonly Stop[],
  i: number,
  j: number,
  start: Position | null,
): number {
  const before = i === 0 ? start : order[i - 1]?.at
  const [first, last, after] = [order[i]?.at, order[j]?.at, order[j + 1]?.at]
  if (!first || !last) return 0
  const now = (before ? metres(before, first) : 0) + (after ? metres(last, after) : 0)
  const then = (before ? metres(before, last) : 0) + (after ? metres(first, after) : 0)
  return now - then
}
