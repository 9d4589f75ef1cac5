import type { Part, PartKind, Point } from '#domain/avian/pole-top/part.ts'

const HOLDERS: readonly PartKind[] = ['tank', 'bracket', 'arm', 'platform', 'pole']
/** No bushing or arrester is longer, metres. */
const LONGEST_M = 0.6

/**
 * Where the porcelain of a terminal stands: the nearest place on what carries it. Null where the
 * drawing knows nothing near enough.
 */
export function footOf({ from: [x, y, z] }: Part, parts: readonly Part[]): Point | null {
  const feet = parts
    .filter(({ kind }) => HOLDERS.includes(kind))
    .map((holder) => nearestOn(holder, [x, y, z]))
    .map((at) => ({ at, awayM: Math.hypot(at[0] - x, at[1] - y, at[2] - z) }))
    .filter(({ awayM }) => awayM <= LONGEST_M)
    .sort((a, b) => a.awayM - b.awayM)
  return feet[0]?.at ?? null
}

/** A tank's lid is as wide as the tank; the others are thin. */
function nearestOn({ kind, from, to, radiusM }: Part, [x, y, z]: Point): Point {
  if (kind === 'tank') {
    const top = from[2] >= to[2] ? from : to
    const awayM = Math.hypot(x - top[0], y - top[1])
    const share = awayM === 0 ? 0 : Math.min(1, (radiusM * 0.9) / awayM)
    return [top[0] + (x - top[0]) * share, top[1] + (y - top[1]) * share, top[2]]
  }
  const [dx, dy, dz] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
  const squared = dx * dx + dy * dy + dz * dz
  const wanted = (x - from[0]) * dx + (y - from[1]) * dy + (z - from[2]) * dz
  const share = squared === 0 ? 0 : Math.max(0, Math.min(1, wanted / squared))
  return [from[0] + share * dx, from[1] + share * dy, from[2] + share * dz]
}
