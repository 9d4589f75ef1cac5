import type { Position } from '#domain/feeder/geometry.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

type Taker = (at: Position) => void

/** Who waits for the next place that is chosen on the map. */
const taker = shareValue<Taker | null>(null)
const middle = shareValue<Position | null>(null)

/** The next click on the map is a place for this form, and selects nothing; null asks no more. */
export const askForPlace = taker.set

export function useIsPlaceAsked(): boolean {
  return useShared(taker) !== null
}

/** @returns whether somebody waited for the place */
export function givePlace(at: Position): boolean {
  const take = taker.get()
  taker.set(null)
  take?.(at)
  return take !== null
}

export const noteMiddleOfMap = middle.set

/** Middle of the map as it stands; null before it is drawn. */
export function useMiddleOfMap(): Position | null {
  return useShared(middle)
}
