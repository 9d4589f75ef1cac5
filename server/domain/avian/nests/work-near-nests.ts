import { bearing, point } from '@turf/turf'
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
  /** From the work to it, clockwise from true north. */
  readonly bearingDeg: number
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
    .map(({ item, distanceM }) => ({
      ...item,
      distanceM,
      bearingDeg: bearing(point(at), point(item.nest.at)),
      isHeld: isHeldBy(item.nest),
    }))
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
  const isFree = (date: string) =>
    !holding.some(({ buffer }) => isDayInSeason(date, buffer.from, buffer.to))
  const turns = turningDays(days, holding)
  const ranges: DayRange[] = []
  for (const [index, day] of turns.slice(0, -1).entries()) {
    const from = dateOfDay(day)
    if (!isFree(from)) continue
    const to = dateOfDay((turns[index + 1] ?? day) - 1)
    const before = ranges.at(-1)
    if (before && dayCount(before.to) === day - 1) ranges[ranges.length - 1] = { ...before, to }
    else ranges.push({ from, to })
  }
  return ranges
}

/**
 * Days on which a season may begin or be over, the first and the one after the last among them. The
 * first of each month too, for seasons that name a day which their month lacks.
 */
function turningDays({ from, to }: DayRange, holding: readonly NestInTheWay[]): number[] {
  const [first, end] = [dayCount(from), dayCount(to) + 1]
  const turns = new Set([first, end])
  const add = (day: number) => {
    if (day > first && day < end) turns.add(day)
  }
  for (let year = Number(from.slice(0, 4)); year <= Number(to.slice(0, 4)); year += 1) {
    for (const month of MONTHS) add(dayCount(`${year}-${month}-01`))
    for (const { buffer } of holding) {
      add(dayIn(year, buffer.from))
      add(dayIn(year, buffer.to) + 1)
    }
  }
  return [...turns].sort((a, b) => a - b)
}

const MONTHS = Array.from({ length: 12 }, (_, index) => String(index + 1).padStart(2, '0'))

function dayIn(year: number, monthDay: string): number {
  return dayCount(`${year}-${monthDay.slice(0, 2)}-01`) + Number(monthDay.slice(3)) - 1
}
