import { z } from 'zod'
import { NestSeason as NestSeasonSchema } from '#contract/nests.ts'

export type NestSeason = z.infer<typeof NestSeasonSchema>

const Seasons = z.array(NestSeasonSchema)

/** Newest first. */
export function seasonsOfText(text: string): readonly NestSeason[] {
  try {
    return Seasons.parse(JSON.parse(text || '[]')).toSorted((a, b) => b.year - a.year)
  } catch {
    return []
  }
}

export function textOfSeasons(seasons: readonly NestSeason[]): string {
  return JSON.stringify(seasons)
}

export function seasonsInWords(text: string): string {
  return seasonsOfText(text).map(seasonInWords).join('; ')
}

export function seasonInWords({ year, status, seenOn, young, note }: NestSeason): string {
  return [
    `${year}: ${status}`,
    seenOn && `seen ${seenOn}`,
    young !== undefined && `${young} young`,
    note,
  ]
    .filter(Boolean)
    .join(', ')
}

/** The season that one would add next: this year's, else the one before the earliest. */
export function nextSeason(seasons: readonly NestSeason[], thisYear: number): number {
  const years = seasons.map(({ year }) => year)
  return years.includes(thisYear) ? Math.min(...years) - 1 : thisYear
}

export function withSeason(seasons: readonly NestSeason[], year: number): NestSeason[] {
  const added: NestSeason = { year, status: 'unknown' }
  return [...seasons, added].sort((a, b) => b.year - a.year)
}

/** With what a look on a day found, in the season of that year. */
export function withLook(
  seasons: readonly NestSeason[],
  status: NestSeason['status'],
  seenOn: string,
): NestSeason[] {
  const year = Number(seenOn.slice(0, 4))
  const before = seasons.find((season) => season.year === year)
  const others = seasons.filter((season) => season.year !== year)
  return [{ ...before, year, status, seenOn }, ...others].sort((a, b) => b.year - a.year)
}
