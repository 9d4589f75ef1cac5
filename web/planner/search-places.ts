import type { FeederModel } from '../state/feeder-model.ts'

export interface FoundPlace {
  readonly pole: string
  /** What matched, where it was not the number of the pole. */
  readonly because: string | null
}

/**
 * Poles for any scrap of a pole number, of an equipment's id or name, or of a load's name: whole
 * numbers first, then beginnings, then the rest.
 */
export function searchPlaces({ feeder }: FeederModel, text: string, atMost: number): FoundPlace[] {
  const wanted = plain(text)
  if (wanted === '') return []
  const found = new Map<string, { because: string | null; rank: number }>()
  const offer = (pole: string | undefined, given: string | undefined, because: string | null) => {
    const rank = rankOf(plain(given ?? ''), wanted) + (because === null ? 0 : 1)
    const known = found.get(pole ?? '')
    if (pole !== undefined && Number.isFinite(rank) && (!known || rank < known.rank)) {
      found.set(pole, { because, rank })
    }
  }
  for (const { id } of feeder.poles) offer(id, id, null)
  for (const item of feeder.equipment) {
    offer(item.pole, item.id, `${item.kind} ${item.id}`)
    offer(item.pole, item.name, item.name ?? null)
  }
  for (const load of feeder.loads) offer(load.pole, load.name, load.name ?? null)
  return [...found]
    .sort(([a, x], [b, y]) => x.rank - y.rank || a.length - b.length || (a < b ? -1 : 1))
    .slice(0, atMost)
    .map(([pole, { because }]) => ({ pole, because }))
}

function plain(text: string): string {
  return text.toLowerCase().replace(/[\s-]/g, '')
}

function rankOf(given: string, wanted: string): number {
  if (given === wanted) return 0
  if (given.startsWith(wanted)) return 2
  return given.includes(wanted) ? 4 : Number.POSITIVE_INFINITY
}
