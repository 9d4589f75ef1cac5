import type { Profile } from './use-profile.ts'

/** How much farther across than along a point may lie: the pointer means a distance first. */
const ACROSS_WEIGHT = 0.35

/** Pole whose point on the profile is nearest to a place in the drawing; the main line wins a tie. */
export function nearestPole(
  { segments, xOf, yOf }: Profile,
  xPx: number,
  yPx: number,
): string | null {
  let best: string | null = null
  let bestGap = Number.POSITIVE_INFINITY
  for (const { points, isMain } of segments) {
    for (const { pole, distanceM, volts120 } of points) {
      const across = (yOf(volts120) - yPx) * ACROSS_WEIGHT
      const gap = Math.hypot(xOf(distanceM) - xPx, across) + (isMain ? 0 : 2)
      if (gap >= bestGap) continue
      bestGap = gap
      best = pole
    }
  }
  return best
}
