import type { Incident, Protection } from '../../feeder/birds.ts'
import type { MeasureKind } from '../../feeder/measure-kinds.ts'
import { dayCount } from '../nests/calendar-days.ts'
import { isElectrocution } from './follow-up.ts'
import { eventsToShow } from './power.ts'
import { poleYearsOf } from './rate.ts'
import { type RateRatio, rateRatio, type Watched } from './rate-ratio.ts'

/** What moves birds and takes away nothing that they could bridge. */
const CLOSES_NOTHING: ReadonlySet<MeasureKind> = new Set([
  'raised perch',
  'perch deterrent',
  'nest platform',
])
const HALVED = 0.5

/** A pole with the days on which its first and its last item were put on. */
export interface WorkedPole {
  readonly poleId: string
  readonly firstOn: string
  readonly lastOn: string
}

export interface BeforeAfter {
  /** Poles that were worked on and are compared. */
  readonly poles: number
  /** Poles that are left out since the record says when their items failed or went, not when they came. */
  readonly undatedPoles: number
  readonly before: Watched
  readonly after: Watched
  /** Events while work on their pole was under way; on neither side. */
  readonly eventsBetween: number
  readonly ratio: RateRatio | null
  /** Events before, and after, with which a halving would show; null where nothing was watched. */
  readonly toShowHalving: { readonly before: number; readonly after: number } | null
}

type Item = Pick<Protection, 'pole' | 'kind' | 'measure' | 'state' | 'on'>

export function closesPairs({ kind, measure }: Pick<Item, 'kind' | 'measure'>): boolean {
  return measure ? !CLOSES_NOTHING.has(measure) : kind !== 'perch'
}

/** Poles by the dates of the items that stand on them. The date of another state is not that of the work. */
export function workedPoles(items: readonly Item[]): { poles: WorkedPole[]; undatedPoles: number } {
  const dates = new Map<string, string[]>()
  const undated = new Set<string>()
  for (const item of items.filter(closesPairs)) {
    if (item.state === 'on') dates.set(item.pole, [...(dates.get(item.pole) ?? []), item.on])
    else if (item.state !== 'planned') undated.add(item.pole)
  }
  const poles = [...dates]
    .filter(([poleId]) => !undated.has(poleId))
    .map(([poleId, on]) => {
      const [firstOn = '', ...later] = on.toSorted()
      return { poleId, firstOn, lastOn: later.at(-1) ?? firstOn }
    })
  return { poles, undatedPoles: undated.size }
}

/**
 * Electrocutions on the poles that were worked on, before the first item came and after the last.
 * Poles that were never worked on are left out: those that were are the worst, so any other
 * comparison would mislead.
 *
 * @param watchedSince first day from which finds are recorded, ISO date
 * @param until last day that counts
 */
export function beforeAfter(
  items: readonly Item[],
  incidents: readonly Incident[],
  watchedSince: string,
  until: string,
): BeforeAfter {
  const { poles, undatedPoles } = workedPoles(items)
  const work = new Map(poles.map((pole) => [pole.poleId, pole]))
  const end = dayCount(until) + 1
  const start = dayCount(watchedSince)
  const days = { before: 0, after: 0 }
  for (const { firstOn, lastOn } of poles) {
    days.before += Math.max(0, Math.min(dayCount(firstOn), end) - start)
    days.after += Math.max(0, end - Math.max(dayCount(lastOn), start))
  }
  const events = { before: 0, between: 0, after: 0 }
  for (const find of incidents.filter(isElectrocution)) {
    const pole = find.pole === undefined ? undefined : work.get(find.pole)
    const on = find.diedOn ?? find.foundOn
    if (pole && on >= watchedSince && on <= until) events[sideOf(on, pole)] += 1
  }
  const before = { events: events.before, poleYears: poleYearsOf(1, days.before) }
  const after = { events: events.after, poleYears: poleYearsOf(1, days.after) }
  const canShow = before.poleYears > 0 && after.poleYears > 0
  return {
    poles: poles.length,
    undatedPoles,
    before,
    after,
    eventsBetween: events.between,
    ratio: rateRatio(before, after),
    toShowHalving: canShow ? eventsToShow(HALVED, after.poleYears / before.poleYears) : null,
  }
}

/** ISO dates compare as text. */
function sideOf(on: string, { firstOn, lastOn }: WorkedPole): 'before' | 'between' | 'after' {
  if (on < firstOn) return 'before'
  return on < lastOn ? 'between' : 'after'
}
