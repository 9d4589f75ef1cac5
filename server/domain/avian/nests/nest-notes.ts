import { compassWord } from '#domain/units/compass-word.ts'
import { feetInWords } from '#domain/units/length.ts'
import { type DayRange, dayInWords } from './calendar-days.ts'
import { isEagle } from './is-eagle.ts'
import type { NestInTheWay, WorkNearNests } from './work-near-nests.ts'

/** Nearer than this there is no direction to speak of. */
const HERE_M = 3

export const AGENCY_DECIDES = 'Advisory: the agency decides.'

/**
 * What a person who plans the work has to know of the nests around it, in sentences; empty where no
 * buffer holds the place.
 */
export function nestNotes({ inTheWay, free }: WorkNearNests, days: DayRange): string[] {
  if (inTheWay.length === 0) return []
  return [...inTheWay.map(nestNote), ...daysNote(free, days), AGENCY_DECIDES]
}

/** Why no day is left, in one sentence. */
export function heldAllTheTime({ inTheWay }: WorkNearNests, days: DayRange): string {
  const names = inTheWay.filter(({ isHeld }) => isHeld).map(whereInWords)
  return `Held by nest buffers on every day from ${dayInWords(days.from)} to ${dayInWords(days.to)}: ${names.join('; ')}. ${AGENCY_DECIDES}`
}

/** One nest, its season and what it asks for. */
export function nestNote(found: NestInTheWay): string {
  const { nest, buffer, isHeld } = found
  const season = `season ${dayInWords(buffer.from)} to ${dayInWords(buffer.to)}`
  const hold = isHeld ? 'no work in it' : 'have it checked before the work'
  return [`${whereInWords(found)}: ${season}, ${hold}.`, ...permitNotes(nest)].join(' ')
}

/** "Golden eagle nest 1094 ft (333 m) to the north (record N-1), in use, buffer 3168 ft (966 m)". */
function whereInWords({ nest, distanceM, bearingDeg, buffer }: NestInTheWay): string {
  const use = nest.status === 'unknown' ? 'use unknown' : nest.status
  const away = `${feetInWords(distanceM)} to the ${compassWord(bearingDeg)}`
  const where = nest.pole === undefined ? away : `on pole ${nest.pole}, ${away}`
  return `${nest.species} nest ${distanceM < HERE_M ? 'right here' : where} (record ${nest.id}), ${use}, buffer ${feetInWords(buffer.distanceM)}`
}

function permitNotes({ species, status }: NestInTheWay['nest']): string[] {
  if (isEagle(species)) {
    return [
      'Eagle nests are protected all year, in use or not (from memory): ask which permit applies.',
    ]
  }
  return status === 'in use' ? ['Nest in use: ask which permit applies.'] : []
}

/** Says only what narrows the days asked for. */
function daysNote(free: readonly DayRange[], days: DayRange): string[] {
  const [first] = free
  if (!first) return [heldWords(days)]
  if (free.length === 1 && first.from === days.from && first.to === days.to) return []
  if (free.length === 1 && first.to === days.to) {
    return [`Not before ${dayInWords(first.from)}.`]
  }
  if (free.length === 1 && first.from === days.from) {
    return [`Not after ${dayInWords(first.to)}.`]
  }
  const runs = free.map(({ from, to }) => `${dayInWords(from)} to ${dayInWords(to)}`)
  return [`Only ${runs.join(', or ')}.`]
}

const heldWords = ({ from, to }: DayRange): string =>
  `No day is free from ${dayInWords(from)} to ${dayInWords(to)}.`
