import type { BirdSettings, BufferRule, BufferSet } from '#domain/avian/bird-settings.ts'

type SpeciesEntry = BirdSettings['species'][number]
type MeasureEntry = BirdSettings['measures'][number]

/** The list with an entry for the species changed; one without figures goes back to what is shipped. */
export function withSpecies(
  entries: readonly SpeciesEntry[],
  id: string,
  change: Partial<SpeciesEntry>,
): SpeciesEntry[] {
  const before = entries.find((entry) => entry.id === id) ?? { id, source: '' }
  const { breadthM, heightM, source } = { ...before, ...change }
  const others = entries.filter((entry) => entry.id !== id)
  if (breadthM === undefined && heightM === undefined) return others
  return [
    ...others,
    {
      id,
      ...(breadthM !== undefined && { breadthM }),
      ...(heightM !== undefined && { heightM }),
      source,
    },
  ]
}

/** The same for a kind of measure. */
export function withMeasure(
  entries: readonly MeasureEntry[],
  kind: MeasureEntry['kind'],
  change: Partial<MeasureEntry>,
): MeasureEntry[] {
  const before = entries.find((entry) => entry.kind === kind) ?? { kind, source: '' }
  const { costUsd, lifeYears, source } = { ...before, ...change }
  const others = entries.filter((entry) => entry.kind !== kind)
  if (costUsd === undefined && lifeYears === undefined) return others
  return [
    ...others,
    {
      kind,
      ...(costUsd !== undefined && { costUsd }),
      ...(lifeYears !== undefined && { lifeYears }),
      source,
    },
  ]
}

/** A set of one's own that begins as a copy; its rules keep how sure they are until changed. */
export function copyOfSet(set: BufferSet, own: readonly BufferSet[], today: string): BufferSet {
  const taken = new Set(own.map(({ id }) => id))
  let number = 1
  while (taken.has(`own-${number}`)) number += 1
  return {
    id: `own-${number}`,
    region: `Copy of ${set.region}`.slice(0, 120),
    source: set.source,
    sourceDate: `copied ${today}`,
    rules: set.rules.map((rule) => ({ ...rule })),
  }
}

/** A figure that somebody changed is theirs: an assumption until they say where it is from. */
export function changedRule(rule: BufferRule, change: Partial<BufferRule>): BufferRule {
  const isFigure = 'distanceM' in change || 'from' in change || 'to' in change
  return { ...rule, ...(isFigure && { sureness: 'assumption' as const }), ...change }
}

export const NEW_RULE: BufferRule = {
  species: '',
  distanceM: 800,
  from: '01-01',
  to: '12-31',
  sureness: 'assumption',
}
