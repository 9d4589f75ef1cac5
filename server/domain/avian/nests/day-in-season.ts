import { dayNumber } from '../../feeder/season.ts'

/**
 * Whether a day lies in a season, both end days counted. A season whose end comes before its start
 * runs over New Year; 01-01 to 12-31 is the whole year. One that ends with 28 February holds 29
 * February too, since it means the end of the month.
 *
 * @param date Calendar day, as "2027-02-15".
 * @param from First day, as "12-15".
 * @param to Last day, as "07-15".
 */
export function isDayInSeason(date: string, from: string, to: string): boolean {
  const day = dayNumber(date.slice(5))
  const first = dayNumber(from)
  const last = to === '02-28' ? dayNumber('02-29') : dayNumber(to)
  return first <= last ? day >= first && day <= last : day >= first || day <= last
}
