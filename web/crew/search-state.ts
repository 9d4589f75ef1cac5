import type { Position } from '#domain/feeder/geometry.ts'
import { createStore, useStore } from '../state/store.ts'

/** Text of the search box, kept while a pole is open, so that going back finds the same list. */
const searchText = createStore('')
export const typeSearch = searchText.set
export const useSearchText = (): string => useStore(searchText)

/** Coordinates that the box holds, marked on the map; null where it holds none. */
const typedPlace = createStore<Position | null>(null)
export const markTypedPlace = typedPlace.set
export const useTypedPlace = (): Position | null => useStore(typedPlace)
