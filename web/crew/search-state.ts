import type { Position } from '#domain/feeder/geometry.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

/** Text of the search box, kept while a pole is open, so that going back finds the same list. */
const searchText = shareValue('')
export const typeSearch = searchText.set
export const useSearchText = (): string => useShared(searchText)

/** Coordinates that the box holds, marked on the map; null where it holds none. */
const typedPlace = shareValue<Position | null>(null)
export const markTypedPlace = typedPlace.set
export const useTypedPlace = (): Position | null => useShared(typedPlace)
