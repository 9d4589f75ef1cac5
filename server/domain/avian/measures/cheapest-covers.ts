import type { ContactPair } from '../pole-top/contact-pair.ts'
import type { Part } from '../pole-top/part.ts'
import { COVER_KINDS, type CoverKind, coverFor } from './cover-parts.ts'
import type { MeasureUse } from './measure.ts'

export interface Covers {
  readonly uses: readonly MeasureUse[]
  readonly costUsd: number
  /** Pairs that no cover closes. */
  readonly leftOpen: readonly ContactPair[]
}

/**
 * The cheapest covers that close all pairs that covers can close. A kind costs the same however many
 * parts of a pole get it, since the crew, the way up and the outage are the same; so what is chosen
 * is kinds: a weighted set cover, solved exactly by branch and bound over the pair that fewest kinds
 * can close.
 */
export function cheapestCovers(
  pairs: readonly ContactPair[],
  costOf: (kind: CoverKind) => number,
): Covers {
  const closable = pairs.filter((pair) => kindsFor(pair).length > 0)
  const kinds = cheapestKinds(closable.map(kindsFor), costOf)
  return {
    uses: usesOf(closable, kinds),
    costUsd: sum(kinds, costOf),
    leftOpen: pairs.filter((pair) => kindsFor(pair).length === 0),
  }
}

/** Covers either part of a pair is enough. */
function kindsFor({ partA, partB }: ContactPair): CoverKind[] {
  const kinds = [coverFor(partA), coverFor(partB)].filter((kind) => kind !== null)
  return [...new Set(kinds)].sort(asListed)
}

function cheapestKinds(
  choices: readonly (readonly CoverKind[])[],
  costOf: (kind: CoverKind) => number,
): CoverKind[] {
  const distinct = [...new Map(choices.map((kinds) => [kinds.join(), kinds])).values()]
  let best: readonly CoverKind[] = [...new Set(distinct.flat())]
  let bestUsd = sum(best, costOf)
  const branch = (chosen: readonly CoverKind[], spentUsd: number): void => {
    const open = distinct.filter((kinds) => !kinds.some((kind) => chosen.includes(kind)))
    const [hardest] = open.sort((one, other) => one.length - other.length)
    if (!hardest) {
      if (spentUsd < bestUsd || (spentUsd === bestUsd && chosen.length < best.length)) {
        best = chosen
        bestUsd = spentUsd
      }
      return
    }
    for (const kind of hardest) {
      const spent = spentUsd + costOf(kind)
      if (spent <= bestUsd) branch([...chosen, kind], spent)
    }
  }
  branch([], 0)
  return [...best].sort(asListed)
}

/** Parts that need a cover, as few as a plain choice gives: those without a way around first. */
function usesOf(pairs: readonly ContactPair[], kinds: readonly CoverKind[]): MeasureUse[] {
  const canCover = (part: Part): boolean => {
    const kind = coverFor(part)
    return kind !== null && kinds.includes(kind)
  }
  const covered = new Map<string, Part>()
  const isOpen = ({ partA, partB }: ContactPair) => !covered.has(partA.id) && !covered.has(partB.id)
  const cover = (part: Part) => covered.set(part.id, part)
  for (const { partA, partB } of pairs) {
    if (canCover(partA) !== canCover(partB)) cover(canCover(partA) ? partA : partB)
  }
  for (let open = pairs.filter(isOpen); open.length > 0; open = open.filter(isOpen)) {
    cover(inMostPairs(open))
  }
  const partIdsOf = (kind: CoverKind) =>
    [...covered.values()].flatMap((part) => (coverFor(part) === kind ? [part.id] : []))
  return kinds
    .map((kind) => ({ kind, partIds: partIdsOf(kind) }))
    .filter(({ partIds }) => partIds.length > 0)
}

/** The part that closes most; of equals an energized one before a grounded one. */
function inMostPairs(pairs: readonly ContactPair[]): Part {
  const counts = new Map<string, { part: Part; count: number }>()
  for (const part of pairs.flatMap(({ partA, partB }) => [partA, partB])) {
    const count = (counts.get(part.id)?.count ?? 0) + 1
    counts.set(part.id, { part, count })
  }
  const [first] = [...counts.values()].sort(
    (one, other) =>
      other.count - one.count ||
      Number(one.part.potential === 'grounded') - Number(other.part.potential === 'grounded') ||
      (one.part.id < other.part.id ? -1 : 1),
  )
  if (!first) throw new Error('Expected at least one pair to take a part from, got none.')
  return first.part
}

function asListed(one: CoverKind, other: CoverKind): number {
  return COVER_KINDS.indexOf(one) - COVER_KINDS.indexOf(other)
}

function sum(kinds: readonly CoverKind[], costOf: (kind: CoverKind) => number): number {
  return kinds.reduce((total, kind) => total + costOf(kind), 0)
}
