import type { ByPhase } from '#domain/electrical/solution.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import { takeAction } from './bank-switches.ts'
import type { JobEntry, StepDone, StepLeftOut } from './job-entry.ts'
import type { JobPlan, PoleWork } from './job-plan.ts'
import type { ReadAt, SerialRead } from './read-at.ts'
import { isSwitched } from './sequence-for-bank.ts'
import type { Step } from './step-sequence.ts'
import type { UnitAction } from './unit-action.ts'
import { startOfUnit, type UnitState } from './unit-state.ts'

/** A step at a pole, or at one unit of it, and how far it is. */
export interface StepPlace {
  readonly step: Step
  readonly phase?: Phase
  readonly status: 'done' | 'left out' | 'next' | 'waiting'
  readonly entry?: JobEntry
}

/** How far the work at one pole is. */
export interface PoleRun {
  readonly work: PoleWork
  /** Each of its units before the first step. */
  readonly start: UnitState
  /** Of the units that are set, where it is another than that of those that stood. */
  readonly newNeutralSide?: UnitState['neutralSide']
  /** In the order of the sequence; a step for each unit stands there once for each. */
  readonly places: readonly StepPlace[]
  readonly states: ByPhase<UnitState>
}

/** Banks at the pole, before the work and after it. */
function banksAt({ bank }: JobPlan, pole: string): Regulator[] {
  return [bank?.standing ?? [], bank?.regulator ?? []].flat().filter((each) => each.pole === pole)
}

function newNeutralSide([standing, regulator]: readonly Regulator[]) {
  if (!regulator || isSwitched(standing) === isSwitched(regulator)) return {}
  return { newNeutralSide: isSwitched(regulator) ? ('open' as const) : ('solid' as const) }
}

export function startPole(plan: JobPlan, work: PoleWork): PoleRun {
  const banks = banksAt(plan, work.pole)
  const phases = PHASES.filter((phase) => banks.some((bank) => bank.phases.includes(phase)))
  const start = startOfUnit(plan.kind, work.sequence, banks[0])
  const places = work.sequence.steps.flatMap((step): StepPlace[] =>
    step.each === 'once'
      ? [{ step, status: 'waiting' }]
      : phases.map((phase) => ({ step, phase, status: 'waiting' })),
  )
  const states = Object.fromEntries(phases.map((phase) => [phase, start]))
  return { work, start, ...newNeutralSide(banks), places: withNext(places), states }
}

export const isOpen = ({ status }: StepPlace) => status === 'next' || status === 'waiting'

/** The first step that is open is next, at each of its units; everything after it waits. */
function withNext(places: readonly StepPlace[]): readonly StepPlace[] {
  const next = places.find(isOpen)?.step
  return places.map((place) => {
    if (!isOpen(place)) return place
    const status = place.step === next ? 'next' : 'waiting'
    return status === place.status ? place : { ...place, status }
  })
}

export function placeOf(
  pole: PoleRun,
  { stepId, phase }: { readonly stepId: string; readonly phase?: Phase | undefined },
): StepPlace | undefined {
  return pole.places.find((place) => place.step.id === stepId && place.phase === phase)
}

/** The units that a step is done at: the one of its phase, or all of the pole. */
export function phasesOf(pole: PoleRun, phase: Phase | undefined): readonly Phase[] {
  return PHASES.filter((each) => pole.states[each] && (phase === undefined || each === phase))
}

export function readAt(plan: JobPlan, pole: PoleRun, phase: Phase | undefined): ReadAt {
  const phases = phasesOf(pole, phase)
  const states = phases.flatMap((each) => pole.states[each] ?? [])
  return { plan, phases, states, serials: serialsRead(pole) }
}

function serialsRead({ places }: PoleRun): SerialRead[] {
  return places.flatMap(({ step, phase, entry }) => {
    if (entry?.kind !== 'step done') return []
    return step.asks.flatMap(({ id, judge }) => {
      const serial = entry.values[id]
      const isRead = judge === 'serial number of one unit' && typeof serial === 'string'
      return isRead ? [{ stepId: step.id, phase, serial }] : []
    })
  })
}

/** The pole after an entry that nothing speaks against. */
export function afterStep(pole: PoleRun, place: StepPlace, entry: StepDone | StepLeftOut): PoleRun {
  const isDone = entry.kind === 'step done'
  const passed: StepPlace = { ...place, status: isDone ? 'done' : 'left out', entry }
  const places = withNext(pole.places.map((each) => (each === place ? passed : each)))
  const { action } = place.step
  if (!isDone || !action) return { ...pole, places }
  return { ...pole, places, states: afterAction(pole, phasesOf(pole, place.phase), action) }
}

function afterAction(
  pole: PoleRun,
  phases: readonly Phase[],
  action: UnitAction,
): ByPhase<UnitState> {
  const states = { ...pole.states }
  for (const phase of phases) {
    const state = states[phase]
    const outcome = state && takeAction(state, action)
    if (outcome?.ok) states[phase] = afterSetting(pole, action, outcome.state)
  }
  return states
}

/** A switch of the new unit stands open until a step closes it. */
function afterSetting(pole: PoleRun, action: UnitAction, state: UnitState): UnitState {
  const { newNeutralSide: neutralSide } = pole
  return action === 'set the unit' && neutralSide ? { ...state, neutralSide } : state
}
