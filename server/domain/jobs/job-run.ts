import type { ByPhase } from '#domain/electrical/solution.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { JobEntry } from './job-entry.ts'
import type { JobPlan } from './job-plan.ts'
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

const refuse = (...why: readonly string[]): Offer => ({ ok: false, why })

export function offerEntry(run: JobRun, entry: JobEntry): Offer {
  if (run.entries.some(({ id }) => id === entry.id)) {
    return refuse(`There is an entry with the id ${entry.id} already.`)
  }
  const pole = run.poles.get(entry.pole)
  if (!pole) return refuse(`Pole ${entry.pole} is not part of this job.`)
  const entries = [...run.entries, entry]
  if (entry.kind !== 'step done' && entry.kind !== 'step left out') {
    return { ok: true, run: { ...run, entries } }
  }
  const place = placeOf(pole, entry)
  if (!place) return refuse(noSuchStep(pole, entry))
  const why = stepRefusals(run.plan, pole, place, entry)
  if (why.length > 0) return refuse(...why)
  const poles = new Map(run.poles).set(entry.pole, afterStep(pole, place, entry))
  return { ok: true, run: { ...run, entries, poles } }
}

/** Folds entries in their order; those that the run does not allow change nothing and are named. */
export function runOf(
  plan: JobPlan,
  entries: readonly JobEntry[],
): {
  readonly run: JobRun
  readonly refused: readonly { readonly id: string; readonly why: readonly string[] }[]
} {
  const refused: { readonly id: string; readonly why: readonly string[] }[] = []
  let run = startRun(plan)
  for (const entry of entries) {
    const offer = offerEntry(run, entry)
    if (offer.ok) run = offer.run
    else refused.push({ id: entry.id, why: offer.why })
  }
  return { run, refused }
}

/** Empty for a pole that is not part of the job. */
export function stepsAt(run: JobRun, poleId: string): readonly StepPlace[] {
  return run.poles.get(poleId)?.places ?? []
}

/** The step to do now; of one that is done at each unit, the first that is open. */
export function nextPlace(run: JobRun, poleId: string): StepPlace | null {
  return stepsAt(run, poleId).find(isOpen) ?? null
}

/** Hold points that nobody passed yet. */
export function openHolds(
  run: JobRun,
): readonly { readonly pole: string; readonly stepId: string; readonly phase?: Phase }[] {
  return [...run.poles].flatMap(([pole, { places }]) =>
    places
      .filter((place) => place.step.isHoldPoint && place.status !== 'done')
      .map(({ step, phase }) => ({ pole, stepId: step.id, ...(phase && { phase }) })),
  )
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
function unsafeAt(plan: JobPlan, id: string, { work, states }: PoleRun): string[] {
  if (!work.sequence.steps.some(({ action }) => action)) return []
  return PHASES.flatMap((phase) => {
    const state = states[phase]
    const left = state ? leftUnsafe(plan.kind, state) : []
    return left.map((what) => `Pole ${id}, unit ${phase}: ${what}.`)
  })
}

/** Steps passed, left out ones among them, and all there are. */
export function stepsCount(run: JobRun): { readonly done: number; readonly all: number } {
  const places = [...run.poles.values()].flatMap((pole) => pole.places)
  return { done: places.filter((place) => !isOpen(place)).length, all: places.length }
}

/** How the units at a pole and their switches stand, by the entries. */
export function unitStatesAt(run: JobRun, poleId: string): ByPhase<UnitState> {
  return run.poles.get(poleId)?.states ?? {}
}
