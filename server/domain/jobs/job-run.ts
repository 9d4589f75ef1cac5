import type { ByPhase } from '#domain/electrical/solution.ts'
import { PHASES } from '#domain/units/phases.ts'
import type { JobEntry } from './job-entry.ts'
import type { JobKind } from './job-kind.ts'
import type { JobPlan, PoleWork } from './job-plan.ts'
import { leftUnsafe } from './left-unsafe.ts'
import { afterStep, isOpen, type PoleRun, placeOf, type StepPlace, startPole } from './pole-run.ts'
import { noSuchStep, stepInWords, stepRefusals } from './step-refusals.ts'
import type { UnitState } from './unit-state.ts'

export type { StepPlace } from './pole-run.ts'

/** How far a job is: its plan and the entries that were taken, in their order. Never changed. */
export interface JobRun {
  readonly plan: JobPlan
  readonly entries: readonly JobEntry[]
  readonly poles: ReadonlyMap<string, PoleRun>
}

/** A run after one more entry, or every reason why it is not taken, in sentences. */
export type Offer =
  | { readonly ok: true; readonly run: JobRun }
  | { readonly ok: false; readonly why: readonly string[] }

/** Throws for a plan that names a pole twice. */
export function startRun(plan: JobPlan): JobRun {
  const poles = new Map(plan.poles.map((work) => [work.pole, startPole(plan, work)]))
  if (poles.size !== plan.poles.length) throw new Error('Expected each pole once in a plan.')
  return { plan, entries: [], poles }
}

export function offerEntry(run: JobRun, entry: JobEntry): Offer {
  const tried = tryEntry(
    run.plan,
    run.poles,
    entry,
    run.entries.some(({ id }) => id === entry.id),
  )
  if (!tried.ok) return tried
  const poles = tried.pole ? new Map(run.poles).set(entry.pole, tried.pole) : run.poles
  return { ok: true, run: { ...run, entries: [...run.entries, entry], poles } }
}

type Tried =
  | { readonly ok: true; readonly pole: PoleRun | null }
  | { readonly ok: false; readonly why: readonly string[] }

const refuse = (...why: readonly string[]): Tried => ({ ok: false, why })

/** The pole after an entry, null where the entry changes nothing there. */
function tryEntry(
  plan: JobPlan,
  poles: ReadonlyMap<string, PoleRun>,
  entry: JobEntry,
  isThereAlready: boolean,
): Tried {
  if (isThereAlready) return refuse(`There is an entry with the id ${entry.id} already.`)
  const pole = poles.get(entry.pole)
  if (!pole) return refuse(`Pole ${entry.pole} is not part of this job.`)
  if (entry.kind !== 'step done' && entry.kind !== 'step left out') return { ok: true, pole: null }
  const place = placeOf(pole, entry)
  if (!place) return refuse(noSuchStep(pole, entry))
  const why = stepRefusals(plan, pole, place, entry)
  return why.length > 0 ? refuse(...why) : { ok: true, pole: afterStep(pole, place, entry) }
}

/** Folds entries in their order; those that the run does not allow change nothing and are named. */
export function runOf(
  plan: JobPlan,
  all: readonly JobEntry[],
): {
  readonly run: JobRun
  readonly refused: readonly { readonly id: string; readonly why: readonly string[] }[]
} {
  const refused: { readonly id: string; readonly why: readonly string[] }[] = []
  const entries: JobEntry[] = []
  const poles = new Map(startRun(plan).poles)
  const ids = new Set<string>()
  for (const entry of all) {
    const tried = tryEntry(plan, poles, entry, ids.has(entry.id))
    if (!tried.ok) {
      refused.push({ id: entry.id, why: tried.why })
      continue
    }
    entries.push(entry)
    ids.add(entry.id)
    if (tried.pole) poles.set(entry.pole, tried.pole)
  }
  return { run: { plan, entries, poles }, refused }
}

/** Empty for a pole that is not part of the job. */
export function stepsAt(run: JobRun, poleId: string): readonly StepPlace[] {
  return run.poles.get(poleId)?.places ?? []
}

/** The step to do now; of one that is done at each unit, the first that is open. */
export function nextPlace(run: JobRun, poleId: string): StepPlace | null {
  return stepsAt(run, poleId).find(isOpen) ?? null
}

/** What must still be done before 'work done' may be said, in sentences; empty when it may. */
export function missingForEnd(run: JobRun): readonly string[] {
  return [...run.poles].flatMap(([id, pole]) => [
    ...pole.places
      .filter(isOpen)
      .map((place) => `Pole ${id}: ${stepInWords(place)} is open${holdInWords(place)}.`),
    ...unsafeAt(run.plan, id, pole),
  ])
}

const holdInWords = ({ step }: StepPlace) => (step.isHoldPoint ? ', a hold point' : '')

/** An order of steps without actions says nothing of switches, so nothing is known of them. */
function unsafeAt(plan: JobPlan, id: string, { work, start, states }: PoleRun): string[] {
  if (!work.sequence.steps.some(({ action }) => action)) return []
  return PHASES.flatMap((phase) => {
    const state = states[phase]
    const left = state ? leftUnsafe(endOf(plan, work), state, start) : []
    return left.map((what) => `Pole ${id}, unit ${phase}: ${what}.`)
  })
}

/** An older order may tell in words alone that a unit comes down; its actions then end at the bypass. */
function endOf({ kind }: JobPlan, { sequence }: PoleWork): JobKind {
  const takesDown = sequence.steps.some(({ action }) => action === 'take the unit down')
  return kind === 'remove a bank' && !takesDown ? 'take a bank out of service' : kind
}

/** How far a job is, counted in steps. */
export interface StepsCount {
  /** Passed, left out ones among them. */
  readonly done: number
  readonly leftOut: number
  readonly all: number
}

export function stepsCount(run: JobRun): StepsCount {
  return countOf([...run.poles.values()].flatMap((pole) => pole.places))
}

export function countOf(places: readonly StepPlace[]): StepsCount {
  return {
    done: places.filter((place) => !isOpen(place)).length,
    leftOut: places.filter(({ status }) => status === 'left out').length,
    all: places.length,
  }
}

/** How the units at a pole and their switches stand, by the entries. */
export function unitStatesAt(run: JobRun, poleId: string): ByPhase<UnitState> {
  return run.poles.get(poleId)?.states ?? {}
}
