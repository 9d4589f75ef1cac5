import type { Incident, Protection } from '../../feeder/birds.ts'
import { POLE_STATES, type PoleState } from '../assessment/pole-assessment.ts'
import type { BirdSettings } from '../bird-settings.ts'
import { daysIn } from '../nests/calendar-days.ts'
import { type BeforeAfter, beforeAfter } from './before-after.ts'
import {
  FOLLOW_UP_STEPS,
  type FollowUpStepName,
  followUpRule,
  followUpSteps,
  isElectrocution,
  type StepState,
} from './follow-up.ts'
import { type Detection, type DetectionFactors, detectionFactors } from './persistence.ts'
import { poleYearsOf, type Rate, rateOf } from './rate.ts'

export interface YearAccountInput {
  readonly year: number
  /** ISO date; of the year that is under way, only the days until then count. */
  readonly today: string
  /** First day from which finds are recorded; before and after are counted from it. */
  readonly watchedSince: string
  /** Ids of the poles that are watched. */
  readonly poles: readonly string[]
  readonly items: readonly Protection[]
  readonly incidents: readonly Incident[]
  /** As they stand today. */
  readonly states: readonly PoleState[]
  /** When each item on a pole has to be looked at next. */
  readonly inspectionsDue: readonly { readonly itemId: string; readonly dueOn: string }[]
  readonly settings?: Pick<BirdSettings, 'followUpEagle' | 'followUpOther'>
  readonly detection: Detection
}

/** Finds and the birds in them: one event may kill more than one. */
export interface Tally {
  readonly what: string
  readonly events: number
  readonly birds: number
}

export interface MeasureDone {
  /** Kind of measure, or of item where no measure is recorded. */
  readonly what: string
  readonly items: number
  readonly poles: number
}

export interface StepTally extends Readonly<Record<StepState, number>> {
  readonly step: FollowUpStepName
}

export interface YearAccount {
  readonly year: number
  /** Days that count, both counted; null where the year has not begun. */
  readonly days: { readonly from: string; readonly to: string } | null
  readonly isUnderWay: boolean
  readonly poles: number
  readonly poleYears: number
  readonly statesToday: readonly { readonly state: PoleState; readonly poles: number }[]
  readonly done: readonly MeasureDone[]
  readonly polesDone: number
  readonly failedItems: number
  readonly inspections: { readonly done: number; readonly overdue: number }
  readonly spend: { readonly usd: number; readonly items: number; readonly withoutCost: number }
  readonly finds: Tally
  readonly electrocutions: Tally
  readonly byCause: readonly Tally[]
  readonly bySpecies: readonly Tally[]
  readonly followUp: readonly StepTally[]
  /** Steps of finds of earlier years that nobody wrote down as done. */
  readonly overdueFromEarlier: number
  readonly rate: Rate | null
  readonly factors: DetectionFactors
  /** What the electrocutions come to with the given detection. */
  readonly correctedEvents: number
  readonly beforeAfter: BeforeAfter
}

/** What was done for birds in a year, what was found, and what the figures allow to say. */
export function yearAccount(input: YearAccountInput): YearAccount {
  const { year, today, poles, detection } = input
  const from = `${year}-01-01`
  const last = `${year}-12-31`
  const to = last < today ? last : today
  const days = from <= to ? { from, to } : null
  const isInYear = (date: string | undefined) => date !== undefined && from <= date && date <= to
  const found = input.incidents.filter(({ foundOn }) => isInYear(foundOn))
  const electrocutions = tallyOf('electrocutions', found.filter(isElectrocution))
  const poleYears = days ? poleYearsOf(poles.length, daysIn(days)) : 0
  const factors = detectionFactors(detection)
  return {
    year,
    days,
    isUnderWay: days !== null && to < last,
    poles: poles.length,
    poleYears,
    statesToday: statesOf(input.states),
    ...workOf(input, isInYear),
    finds: tallyOf('finds', found),
    electrocutions,
    byCause: tallies(found, ({ cause }) => cause),
    bySpecies: tallies(found, ({ species }) => species),
    ...followUpOf(input, found, from),
    rate: rateOf(electrocutions.events, poleYears, factors.detected),
    factors,
    correctedEvents: electrocutions.events / factors.detected,
    beforeAfter: beforeAfter(input.items, input.incidents, input.watchedSince, to),
  }
}

/** The first of January of the year of the earliest find: taken for the start of the record. */
export function assumedWatchedSince(incidents: readonly Incident[], today: string): string {
  const [first = today] = [today, ...incidents.map(({ foundOn }) => foundOn)].toSorted()
  return `${first.slice(0, 4)}-01-01`
}

function statesOf(states: readonly PoleState[]) {
  return POLE_STATES.map((state) => ({
    state,
    poles: states.filter((one) => one === state).length,
  })).filter(({ poles }) => poles > 0)
}

function workOf(input: YearAccountInput, isInYear: (date: string | undefined) => boolean) {
  const { items, inspectionsDue, today } = input
  const done = items.filter(({ state, on }) => state === 'on' && isInYear(on))
  return {
    done: measuresOf(done),
    polesDone: new Set(done.map(({ pole }) => pole)).size,
    failedItems: items.filter(isFailed).length,
    inspections: {
      done: items.filter(({ inspectedOn }) => isInYear(inspectedOn)).length,
      overdue: inspectionsDue.filter(({ dueOn }) => dueOn < today).length,
    },
    spend: {
      usd: done.reduce((sum, { costUsd = 0 }) => sum + costUsd, 0),
      items: done.length,
      withoutCost: done.filter(({ costUsd }) => costUsd === undefined).length,
    },
  }
}

function isFailed({ state, condition = 'sound' }: Protection): boolean {
  return state === 'failed' || (state === 'on' && condition !== 'sound')
}

function measuresOf(done: readonly Protection[]): MeasureDone[] {
  return [...grouped(done, ({ measure, kind }) => measure ?? `${kind}, kind not recorded`)]
    .map(([what, items]) => ({
      what,
      items: items.length,
      poles: new Set(items.map(({ pole }) => pole)).size,
    }))
    .sort((a, b) => b.items - a.items || a.what.localeCompare(b.what))
}

function followUpOf(input: YearAccountInput, found: readonly Incident[], from: string) {
  const { today, settings, incidents } = input
  const stepsOf = (find: Incident) =>
    followUpSteps(find, followUpRule(find.species, settings).days, today)
  const steps = found.flatMap(stepsOf)
  const earlier = incidents.filter(({ foundOn }) => foundOn < from).flatMap(stepsOf)
  return {
    followUp: FOLLOW_UP_STEPS.map((step) => {
      const count = (state: StepState) =>
        steps.filter((one) => one.step === step && one.state === state).length
      return {
        step,
        kept: count('kept'),
        late: count('late'),
        overdue: count('overdue'),
        waiting: count('waiting'),
      }
    }),
    overdueFromEarlier: earlier.filter(({ state }) => state === 'overdue').length,
  }
}

function tallies(finds: readonly Incident[], by: (find: Incident) => string): Tally[] {
  return [...grouped(finds, by)]
    .map(([what, some]) => tallyOf(what, some))
    .sort((a, b) => b.events - a.events || a.what.localeCompare(b.what))
}

function tallyOf(what: string, finds: readonly Incident[]): Tally {
  return {
    what,
    events: finds.length,
    birds: finds.reduce((sum, { count = 1 }) => sum + count, 0),
  }
}

function grouped<Item>(items: readonly Item[], by: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>()
  for (const item of items) {
    const group = groups.get(by(item))
    if (group) group.push(item)
    else groups.set(by(item), [item])
  }
  return groups
}
