/** Month and day of "02-15" as one number that sorts by the calendar: 215. */
export function dayNumber(monthDay: string): number {
  return Number(monthDay.slice(0, 2)) * 100 + Number(monthDay.slice(3, 5))
}

/**
 * Whether any day of a month lies in a season, both end days counted. A season whose end
 * comes before its start runs over New Year: 12-15 to 07-15 holds December and January.
 *
 * @param month 1 for January to 12 for December.
 * @param fromMonthDay First day, as "12-15".
 * @param toMonthDay Last day, as "07-15".
 * @throws When the month is not a whole number from 1 to 12.
 */
export function isMonthInSeason(month: number, fromMonthDay: string, toMonthDay: string): boolean {
  if (!Number.isInteger(month) || month < 1 || month > 12) {
    throw new Error(`Expected a month from 1 to 12, got ${month}.`)
  }
  const from = dayNumber(fromMonthDay)
  const to = dayNumber(toMonthDay)
  const startsBeforeMonthEnds = from <= month * 100 + 31
  const endsAfterMonthStarts = to >= month * 100 + 1
  return from <= to
    ? startsBeforeMonthEnds && endsAfterMonthStarts
    : startsBeforeMonthEnds || endsAfterMonthStarts
}
