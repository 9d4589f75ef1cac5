const MS_PER_DAY = 86_400_000

/** A run of calendar days, both counted, as ISO dates. */
export interface DayRange {
  readonly from: string
  readonly to: string
}

/** Days since 1970-01-01 of an ISO date. */
export function dayCount(date: string): number {
  const ms = Date.parse(`${date}T00:00:00Z`)
  if (Number.isNaN(ms)) throw new Error(`Expected a date as 2027-02-15, got "${date}".`)
  return Math.round(ms / MS_PER_DAY)
}

/** ISO date of so many days since 1970-01-01. */
export function dateOfDay(day: number): string {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10)
}

export function daysIn({ from, to }: DayRange): number {
  return dayCount(to) - dayCount(from) + 1
}

/** Runs of days that lie in a run of each list; both lists in the order of time. */
export function sharedRanges(a: readonly DayRange[], b: readonly DayRange[]): DayRange[] {
  return a.flatMap((one) =>
    b
      .map((other) => ({
        from: later(one.from, other.from),
        to: earlier(one.to, other.to),
      }))
      .filter(({ from, to }) => from <= to),
  )
}

/** ISO dates sort as text. */
function later(a: string, b: string): string {
  return a.localeCompare(b) > 0 ? a : b
}

function earlier(a: string, b: string): string {
  return later(a, b) === a ? b : a
}

/** The longest run, the earlier of two alike; null where there is none. */
export function longestRange(ranges: readonly DayRange[]): DayRange | null {
  return ranges.reduce<DayRange | null>(
    (best, range) => (best && daysIn(best) >= daysIn(range) ? best : range),
    null,
  )
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** "02-15" as "15 Feb", and "2027-02-15" as "15 Feb 2027". */
export function dayInWords(date: string): string {
  const year = date.length > 5 ? ` ${date.slice(0, 4)}` : ''
  const monthDay = date.slice(-5)
  return `${Number(monthDay.slice(3))} ${MONTHS[Number(monthDay.slice(0, 2)) - 1]}${year}`
}
