import type { Position } from '#domain/feeder/geometry.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { type WayTo, wayTo } from './bearing.ts'

/** How an id answers to a scrap, best first. `part` is a whole piece of it, as 418 is of 2-418. */
const MATCHES = ['exact', 'prefix', 'part', 'contains'] as const
export type PoleMatch = (typeof MATCHES)[number]

export interface FoundPole {
  readonly pole: Pole
  readonly match: PoleMatch | null
  /** From the device or the typed position; null where neither is known. */
  readonly way: WayTo | null
}

/**
 * Poles whose id answers to any scrap of it: exact ids first, then those that begin with it, hold
 * it as a whole piece, or hold it anywhere. Within a kind the nearest comes first, or the id's
 * order where no position is known. Case, spaces and separators do not matter.
 */
export function findPolesById(
  poles: readonly Pole[],
  scrap: string,
  from: Position | null,
): FoundPole[] {
  const wanted = plain(scrap)
  if (wanted === '') return []
  return poles
    .flatMap((pole) => {
      const match = matchOf(pole.id, wanted)
      return match ? [{ pole, match, way: from ? wayTo(from, pole.at) : null }] : []
    })
    .sort((a, b) => betterMatch(a, b) || nearerFirst(a, b))
}

/** Orders by how an id answers; what was found by its place alone has no order of that kind. */
export function betterMatch({ match: a }: FoundPole, { match: b }: FoundPole): number {
  return a && b ? MATCHES.indexOf(a) - MATCHES.indexOf(b) : 0
}

/** All poles within reach of a position, nearest first. */
export function findPolesNear(
  poles: readonly Pole[],
  from: Position,
  withinM: number,
): FoundPole[] {
  return poles
    .map((pole) => ({ pole, match: null, way: wayTo(from, pole.at) }))
    .filter(({ way }) => way.distanceM <= withinM)
    .sort(nearerFirst)
}

const SEPARATORS = /[\s._:#-]+/
const plain = (text: string): string => text.toUpperCase().split(SEPARATORS).join('')

function matchOf(id: string, wanted: string): PoleMatch | null {
  const whole = plain(id)
  if (whole === wanted) return 'exact'
  if (whole.startsWith(wanted)) return 'prefix'
  if (id.toUpperCase().split(SEPARATORS).includes(wanted)) return 'part'
  return whole.includes(wanted) ? 'contains' : null
}

/** W-9 before W-10. */
const ID_ORDER = new Intl.Collator('en', { numeric: true })

function nearerFirst(a: FoundPole, b: FoundPole): number {
  const nearer = (a.way?.distanceM ?? 0) - (b.way?.distanceM ?? 0)
  return nearer || ID_ORDER.compare(a.pole.id, b.pole.id)
}
