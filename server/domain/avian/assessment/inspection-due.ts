import type { Protection } from '../../feeder/birds.ts'
import type { BirdSettings } from '../bird-settings.ts'

/**
 * The day by which somebody should look at an item again: the last look, or the day that it went
 * up, and its interval, or that of the utility. Null where no interval is set or nothing is up.
 */
export function inspectionDue(item: Protection, settings?: BirdSettings): { dueOn: string } | null {
  const months = item.inspectEveryMonths ?? settings?.inspectEveryMonths
  if (months === undefined || item.state !== 'on') return null
  return { dueOn: monthsAfter(item.inspectedOn ?? item.on, months) }
}

/** `today` as "2026-11-25": the day itself is not late yet. */
export function isInspectionOverdue(
  item: Protection,
  today: string,
  settings?: BirdSettings,
): boolean {
  const due = inspectionDue(item, settings)
  return due !== null && due.dueOn < today
}

/** The same day of a later month, or its last day where it is shorter. */
function monthsAfter(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number)
  const count = year * 12 + (month - 1) + months
  const [toYear, toMonth] = [Math.floor(count / 12), (count % 12) + 1]
  const two = (value: number) => String(value).padStart(2, '0')
  return `${toYear}-${two(toMonth)}-${two(Math.min(day, daysIn(toYear, toMonth)))}`
}

function daysIn(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  if (month === 2) return isLeap ? 29 : 28
  return [4, 6, 9, 11].includes(month) ? 30 : 31
}
