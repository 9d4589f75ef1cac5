import type { Nest } from '../../feeder/birds.ts'
import type { Position } from '../../feeder/geometry.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { PointGrid } from '../exposure/point-grid.ts'
import { type NestBuffer, nestBuffer } from './buffer-sets.ts'
import { type DayRange, dateOfDay, dayCount } from './calendar-days.ts'
import { isDayInSeason } from './day-in-season.ts'
import { isEagle } from './is-eagle.ts'

/** A nest whose buffer holds the place of the work. */
export interface NestInTheWay {
  readonly nest: Nest
  readonly distanceM: number
  readonly buffer: NestBuffer
  /** The season keeps work away, and does not only call for care. */
  readonly isHeld: boolean
}

export interface WorkNearNests {
  /** Nearest first. */
  readonly inTheWay: readonly NestInTheWay[]
  /** Days of those asked for on which no buffer holds the work; empty where all are held. */
  readonly free: readonly DayRange[]
}

/** A nest on a pole may be recorded so far beside it. */
const BESIDE_POLE_M = 200

/**
 * What work at a place meets on the given days. Nests in use and nests of which it is not known are
 * held against their season; one that is not in use only where it is an eagle's, which are protected
 * all year, in use or not (from memory: Bald and Golden Eagle Protection Act and 50 CFR part 22), and
 * may be taken up again. Advisory; the agency decides.
 *
 * @param nests Within reach of the widest buffer; `nestsWithBuffers` makes the index.
 */
export function workNearNests(
  at: Position,
  nests: PointGrid<NestWithBuffer>,
  days: DayRange,
  poleId?: string,
): WorkNearNests {
  const reachM = nests.items.reduce(
    (most, { buffer }) => Math.max(most, buffer.distanceM),
    BESIDE_POLE_M,
  )
  const inTheWay = nests
    .within(at, reachM)
    .filter(
      ({ item, distanceM }) =>
        distanceM <= item.buffer.distanceM || (poleId !== undefined && item.nest.pole === poleId),
    )
    .map(({ item, distanceM }) => ({ ...item, distanceM, isHeld: isHeldBy(item.nest) }))
  return { inTheWay, free: freeRanges(days, inTheWay) }
}

export interface NestWithBuffer {
  readonly nest: Nest
  readonly buffer: NestBuffer
}

export function nestsWithBuffers(
  nests: readonly Nest[],
  settings?: BirdSettings,
): NestWithBuffer[] {
  return nests.map((nest) => ({ nest, buffer: nestBuffer(nest, settings) }))
}

function isHeldBy({ status, species }: Nest): boolean {
  return status !== 'not in use' || isEagle(species)
}

function freeRanges(days: DayRange, inTheWay: readonly NestInTheWay[]): DayRange[] {
  const holding = inTheWay.filter(({ isHeld }) => isHeld)
  if (holding.length === 0) return days.from <= days.to ? [days] : []
  const ranges: DayRange[] = []
  let first: string | null = null
  const last = dayCount(days.to)
  for (let day = dayCount(days.from); day <= last + 1; day += 1) {
    const date = dateOfDay(day)
    const isFree =
      day <= last && !holding.some(({ buffer }) => isDayInSeason(date, buffer.from, buffer.to))
    if (isFree) first ??= date
    else if (first !== null) {
      ranges.push({ from: first, to: dateOfDay(day - 1) })
      first = null
    }
  }
  return ranges
}
