import type { Position } from '#domain/feeder/geometry.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { M_PER_MILE } from '#domain/units/length.ts'
import { parseCoordinates } from '../jobs/places/coordinates.ts'
import {
  betterMatch,
  type FoundPole,
  findPolesById,
  findPolesNear,
} from '../jobs/places/find-poles.ts'

/** Poles further off than this are no answer to typed coordinates or to "near me". */
export const NEAR_M = 5 * M_PER_MILE

/** A feeder whose poles are searched. */
export interface SearchedFeeder {
  readonly header: { readonly id: string; readonly name: string }
  readonly poles: readonly Pole[]
}

/** A pole with the feeder that it belongs to; two feeders may have poles of the same id. */
export interface FoundAcross extends FoundPole {
  readonly feeder: SearchedFeeder['header']
}

export interface SearchAnswer {
  readonly poles: readonly FoundAcross[]
  /** What was understood, or why nothing was, in words. */
  readonly heading: string
  /** Typed coordinates, to mark them on the map. */
  readonly typedAt: Position | null
}

/**
 * Answers the search box: poles by any scrap of their id, or poles around typed coordinates, or,
 * for an empty box, poles around the device. Among equals those of the first feeder come first.
 */
export function searchPoles(
  feeders: readonly SearchedFeeder[],
  text: string,
  device: Position | null,
): SearchAnswer {
  if (text.trim() === '') return aroundDevice(feeders, device)
  const byId = inAll(feeders, device !== null, (poles) => findPolesById(poles, text, device))
  if (byId.length > 0) {
    return {
      poles: byId,
      heading: `${counted(byId)} with “${text.trim()}” in the number`,
      typedAt: null,
    }
  }
  const typed = parseCoordinates(text)
  if (typed.kind === 'no coordinates') {
    return {
      poles: [],
      heading: `No pole number holds “${text.trim()}”, and it does not read as coordinates.`,
      typedAt: null,
    }
  }
  if (typed.kind === 'unreadable') return { poles: [], heading: typed.problem, typedAt: null }
  return around(feeders, typed.at, typed.notation, typed.squareM)
}

/** Finds in each feeder and puts the finds of all into one order. */
function inAll(
  feeders: readonly SearchedFeeder[],
  isByDistance: boolean,
  find: (poles: readonly Pole[]) => FoundPole[],
): FoundAcross[] {
  const places = new Map(feeders.map(({ header }, index) => [header.id, index]))
  const placeOf = ({ feeder }: FoundAcross) => places.get(feeder.id) ?? 0
  return feeders
    .flatMap(({ header, poles }) => find(poles).map((found) => ({ ...found, feeder: header })))
    .sort((a, b) => {
      const byMatch = betterMatch(a, b)
      if (byMatch !== 0) return byMatch
      return isByDistance
        ? (a.way?.distanceM ?? 0) - (b.way?.distanceM ?? 0)
        : placeOf(a) - placeOf(b)
    })
}

function aroundDevice(feeders: readonly SearchedFeeder[], device: Position | null): SearchAnswer {
  if (!device) return { poles: [], heading: '', typedAt: null }
  const near = inAll(feeders, true, (poles) => findPolesNear(poles, device, NEAR_M))
  const heading =
    near.length > 0
      ? `${counted(near)} within 5 miles of you, nearest first`
      : 'No pole that this device knows stands within 5 miles of you. Choose another feeder, or search by number.'
  return { poles: near, heading, typedAt: null }
}

function around(
  feeders: readonly SearchedFeeder[],
  at: Position,
  notation: string,
  squareM: number | null,
): SearchAnswer {
  const near = inAll(feeders, true, (poles) => findPolesNear(poles, at, NEAR_M))
  const square =
    squareM !== null && squareM > 1 ? `, from the middle of a square ${squareM} m wide` : ''
  const heading =
    near.length > 0
      ? `${counted(near)} within 5 miles of these coordinates (read as ${notation}${square}), nearest first`
      : `No pole that this device knows stands within 5 miles of these coordinates (read as ${notation}). West and south need a minus sign or a letter.`
  return { poles: near, heading, typedAt: at }
}

const counted = (found: readonly FoundPole[]): string =>
  found.length === 1 ? '1 pole' : `${found.length} poles`
