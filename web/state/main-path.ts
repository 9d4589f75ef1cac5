import type { FeederModel } from './feeder-model.ts'

/**
 * Poles from the source to the far end of the main line: of the poles that the most phases reach,
 * the one with the longest way.
 */
export function mainPath({ feeder, trace, upstreamOf }: FeederModel): string[] {
  let end = feeder.header.source.pole
  let best = { phaseCount: 0, distanceM: 0 }
  for (const { farPole, mask, distanceM } of trace.spans) {
    const phaseCount = bitCount(mask)
    const isBetter =
      phaseCount > best.phaseCount || (phaseCount === best.phaseCount && distanceM > best.distanceM)
    if (!isBetter) continue
    best = { phaseCount, distanceM }
    end = farPole
  }
  return pathTo(end, upstreamOf)
}

/** Poles from the source to this one, both included. */
export function pathTo(pole: string, upstreamOf: ReadonlyMap<string, string>): string[] {
  const path = [pole]
  for (let next = upstreamOf.get(pole); next !== undefined; next = upstreamOf.get(next)) {
    path.push(next)
  }
  return path.reverse()
}

function bitCount(mask: number): number {
  return (mask & 1) + ((mask >> 1) & 1) + ((mask >> 2) & 1)
}
