import type { Pole } from '#domain/feeder/pole.ts'
import { listed } from '../state/format.ts'
import { findPolesById } from './places/find-poles.ts'

export type PolesMeant =
  | { readonly ok: true; readonly poles: readonly string[] }
  /** As a sentence. */
  | { readonly ok: false; readonly why: string }

/** More than these are counted. */
const MOST_NAMED = 4

/**
 * Poles that somebody typed, each by its id or any scrap that tells it apart, as the search of the
 * crew takes it; in their order, each once.
 */
export function polesMeant(
  poleById: ReadonlyMap<string, Pole>,
  scraps: readonly string[],
): PolesMeant {
  const poles = [...poleById.values()]
  const found: string[] = []
  const unknown: string[] = []
  for (const scrap of scraps) {
    const meant = poleById.has(scrap) ? [scrap] : idsFor(poles, scrap)
    const [id] = meant
    if (meant.length > 1) return { ok: false, why: manyWords(scrap, meant) }
    if (id === undefined) unknown.push(scrap)
    else found.push(id)
  }
  if (unknown.length > 0) return { ok: false, why: `This feeder has no pole ${listed(unknown)}.` }
  return { ok: true, poles: [...new Set(found)] }
}

/** Those that are it but for case and separators, else all that hold it. */
function idsFor(poles: readonly Pole[], scrap: string): string[] {
  const found = findPolesById(poles, scrap, null)
  const exact = found.filter(({ match }) => match === 'exact')
  return (exact.length > 0 ? exact : found).map(({ pole }) => pole.id)
}

function manyWords(scrap: string, ids: readonly string[]): string {
  const named = ids.slice(0, MOST_NAMED)
  const more = ids.length - named.length
  const all = more > 0 ? [...named, `${more} more`] : named
  return `“${scrap}” is part of ${listed(all)}: type more of the one that is meant.`
}
