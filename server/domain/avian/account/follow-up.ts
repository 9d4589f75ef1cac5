import type { Incident } from '../../feeder/birds.ts'
import type { BirdSettings, FollowUpDays } from '../bird-settings.ts'
import type { Sureness } from '../eagle-guidance.ts'
import { dateOfDay, dayCount } from '../nests/calendar-days.ts'
import { isEagle } from '../nests/is-eagle.ts'

export const FOLLOW_UP_STEPS = ['visit', 'fix', 'inspection', 'neighbours'] as const
export type FollowUpStepName = (typeof FOLLOW_UP_STEPS)[number]

/**
 * Days from the find to the visit, the fix, and the look at similar poles nearby; from the fix to
 * its inspection. No published limits were found: assumptions, until the utility sets its own.
 */
export const ASSUMED_FOLLOW_UP: Readonly<Record<'eagle' | 'other', FollowUpDays>> = {
  eagle: { visit: 3, fix: 30, inspection: 30, neighbours: 60 },
  other: { visit: 14, fix: 90, inspection: 30, neighbours: 60 },
}

export interface FollowUpRule {
  readonly days: FollowUpDays
  /** In words, with how sure it is. */
  readonly source: string
  readonly sureness: Sureness | 'set by the utility'
}

/** How a step stands: done in time, done late, past its date and not done, or still to come. */
export type StepState = 'kept' | 'late' | 'overdue' | 'waiting'

export interface FollowUpStep {
  readonly step: FollowUpStepName
  readonly dueOn: string
  /** Nobody wrote the date down: it comes from the rule. */
  readonly isProposed: boolean
  readonly doneOn: string | null
  readonly state: StepState
}

export function isElectrocution({ cause }: Pick<Incident, 'cause'>): boolean {
  return cause === 'confirmed electrocution' || cause === 'probable electrocution'
}

/** What the utility set, else the assumption. */
export function followUpRule(
  species: string,
  settings?: Pick<BirdSettings, 'followUpEagle' | 'followUpOther'>,
): FollowUpRule {
  const kind = isEagle(species) ? 'eagle' : 'other'
  const set = kind === 'eagle' ? settings?.followUpEagle : settings?.followUpOther
  if (set) {
    return { days: set, source: 'bird settings of the utility', sureness: 'set by the utility' }
  }
  const whom = kind === 'eagle' ? 'eagles' : 'birds other than eagles'
  return {
    days: ASSUMED_FOLLOW_UP[kind],
    source: `planning default for ${whom}; no published limits were found`,
    sureness: 'assumption',
  }
}

type Dated = Pick<
  Incident,
  | 'foundOn'
  | 'species'
  | 'cause'
  | 'pole'
  | 'visitDueOn'
  | 'visitedOn'
  | 'fixDueOn'
  | 'fixedOn'
  | 'inspectionDueOn'
  | 'inspectedOn'
  | 'neighboursDueOn'
  | 'neighboursDoneOn'
>

type DueDates = Readonly<Record<FollowUpStepName, string>>

/** When each step is due by the rule. The inspection is counted from the fix, or from when that is due. */
export function proposedDueDates(
  find: Pick<Dated, 'foundOn' | 'fixDueOn' | 'fixedOn'>,
  { visit, fix, inspection, neighbours }: FollowUpDays,
): DueDates {
  const found = dayCount(find.foundOn)
  const fixDue = find.fixDueOn ?? dateOfDay(found + fix)
  return {
    visit: dateOfDay(found + visit),
    fix: dateOfDay(found + fix),
    inspection: dateOfDay(dayCount(find.fixedOn ?? fixDue) + inspection),
    neighbours: dateOfDay(found + neighbours),
  }
}

/**
 * Steps that follow a find, with how they stand on a day. Every find is visited; a fix, its
 * inspection and a look at similar poles follow where a bird was electrocuted on a known pole, and
 * wherever somebody wrote a date down.
 *
 * @param today ISO date
 */
export function followUpSteps(find: Dated, days: FollowUpDays, today: string): FollowUpStep[] {
  const proposed = proposedDueDates(find, days)
  const recorded: Readonly<Record<FollowUpStepName, readonly [due?: string, done?: string]>> = {
    visit: [find.visitDueOn, find.visitedOn],
    fix: [find.fixDueOn, find.fixedOn],
    inspection: [find.inspectionDueOn, find.inspectedOn],
    neighbours: [find.neighboursDueOn, find.neighboursDoneOn],
  }
  const needsFix = isElectrocution(find) && find.pole !== undefined
  return FOLLOW_UP_STEPS.flatMap((step) => {
    const [due, done = null] = recorded[step]
    if (!due && !done && step !== 'visit' && !needsFix) return []
    const dueOn = due ?? proposed[step]
    const state = stateOf(dueOn, done, today)
    return [{ step, dueOn, isProposed: !due, doneOn: done, state }]
  })
}

/** ISO dates compare as text. */
function stateOf(dueOn: string, doneOn: string | null, today: string): StepState {
  if (doneOn !== null) return doneOn <= dueOn ? 'kept' : 'late'
  return dueOn < today ? 'overdue' : 'waiting'
}

/** The step that comes next: the one that is due first of those not done. */
export function nextStep(steps: readonly FollowUpStep[]): FollowUpStep | null {
  const open = steps.filter(({ doneOn }) => doneOn === null)
  return open.reduce<FollowUpStep | null>(
    (first, step) => (first === null || step.dueOn < first.dueOn ? step : first),
    null,
  )
}
