import { shareValue, useShared } from '../device/shared-value.ts'

/** Pole under the pointer on map, strip or list; the others show it too. */
const hoveredPole = shareValue<string | null>(null)

export const hoverPole = hoveredPole.set

export function useHoveredPole(): string | null {
  return useShared(hoveredPole)
}
