import type { Position } from '#domain/feeder/geometry.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { M_PER_MILE } from '#domain/units/length.ts'
import { parseCoordinates } from '../jobs/places/coordinates.ts'
import { type FoundPole, findPolesById, findPolesNear } from './find-poles.ts'

/** Poles further off than this are no answer to typed coordinates or to "near me". */
export const NEAR_M = 5 * M_PER_MILE

export interface SearchAnswer {
  readonly poles: readonly FoundPole[]
  /** What was understood, or why nothing was, in words. */
  readonly heading: string
  /** Typed coordinates, to mark them on the map. */
  readonly typedAt: Position | null
}

/**
 * Answers the search box: poles by any scrap of their id, or poles around typed coordinates, or,
 * for an empty box, poles around the device.
 */
export function searchPoles(
  poles: readonly Pole[],
  text: string,
  device: Position | null,
): SearchAnswer {
  if (text.trim() === '') return aroundDevice(poles, device)
  const byId = findPolesById(poles, text, device)
  if (byId.length > 0) {
    return {
      poles: byId,
      heading: `${counted(byId)} with “${text.trim()}” in the id`,
      typedAt: null,
    }
  }
  const typed = parseCoordinates(text)
  if (typed.kind === 'no coordinates') {
    return {
      poles: [],
      heading: `No pole id holds “${text.trim()}”, and it does not read as coordinates.`,
      typedAt: null,
    }
  }
  if (typed.kind === 'unreadable') return { poles: [], heading: typed.problem, typedAt: null }
  return around(poles, typed.at, typed.notation, typed.squareM)
}

function aroundDevice(poles: readonly Pole[], device: Position | null): SearchAnswer {
  if (!device) return { poles: [], heading: '', typedAt: null }
  const near = findPolesNear(poles, device, NEAR_M)
  const heading =
    near.length > 0
      ? `${counted(near)} within 5 miles of you, nearest first`
      : 'No pole of this feeder within 5 miles of you. Choose another feeder, or search by id.'
  return { poles: near, heading, typedAt: null }
}

function around(
  poles: readonly Pole[],
  at: Position,
  notation: string,
  squareM: number | null,
): SearchAnswer {
  const near = findPolesNear(poles, at, NEAR_M)
  const square =
    squareM !== null && squareM > 1 ? `, from the middle of a square ${squareM} m wide` : ''
  const heading =
    near.length > 0
      ? `${counted(near)} within 5 miles of these coordinates (read as ${notation}${square}), nearest first`
      : `No pole of this feeder within 5 miles of these coordinates (read as ${notation}). West and south need a minus sign or a letter.`
  return { poles: near, heading, typedAt: at }
}

const counted = (found: readonly FoundPole[]): string =>
  found.length === 1 ? '1 pole' : `${found.length} poles`
