import { createStore, useStore } from './store.ts'

/** Pole under the pointer on map, strip or list; the others show it too. */
const hoveredPole = createStore<string | null>(null)

export const hoverPole = hoveredPole.set

export function useHoveredPole(): string | null {
  return useStore(hoveredPole)
}
