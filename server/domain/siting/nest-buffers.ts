import { bearing, distance } from '@turf/turf'
import type { Nest } from '#domain/feeder/birds.ts'
import type { Position } from '#domain/feeder/geometry.ts'
import { isMonthInSeason } from '#domain/feeder/season.ts'
import { compassWord } from '#domain/units/compass-word.ts'
import { feetInWords } from '#domain/units/length.ts'

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

export interface NestVerdict {
  /** Nests whose season rules work at the place out. */
  readonly reasons: readonly string[]
  /** Nests close by that do not rule it out, for the person who plans the work. */
  readonly cautions: readonly string[]
}

/**
 * What the recorded nest buffers say about work at a place. The buffers are advisory: the wildlife
 * agency decides. A nest recorded as not in use gives a caution only.
 */
export function nestVerdict(nests: readonly Nest[], at: Position, workMonth?: number): NestVerdict {
  const reasons: string[] = []
  const cautions: string[] = []
  for (const nest of nests) {
    const awayM = distance(at, nest.at, { units: 'meters' })
    if (awayM > nest.bufferM) continue
    const toward = compassWord(bearing(at, nest.at))
    const where = `${feetInWords(awayM)} from ${nest.species} nest to the ${toward} (record ${nest.id}), buffer ${feetInWords(nest.bufferM)}`
    const season = `${dayName(nest.seasonFrom)} to ${dayName(nest.seasonTo)}`
    if (nest.status === 'not in use') {
      cautions.push(`${where}; recorded as not in use. Have it checked before the work.`)
    } else if (workMonth === undefined) {
      reasons.push(`${where}, season ${season}; any season counts while no work month is chosen.`)
    } else if (isMonthInSeason(workMonth, nest.seasonFrom, nest.seasonTo)) {
      reasons.push(`${where}, season ${season}; ${MONTHS[workMonth - 1]} lies in it.`)
    } else {
      cautions.push(`${where}, season ${season}; keep the work outside it and ask the agency.`)
    }
  }
  return { reasons, cautions }
}

/** "02-15" as "15 Feb". */
function dayName(monthDay: string): string {
  return `${Number(monthDay.slice(3, 5))} ${MONTHS[Number(monthDay.slice(0, 2)) - 1]}`
}
