import { takeAction } from './bank-switches.ts'
import type { JobKind } from './job-kind.ts'
import { leftUnsafe } from './left-unsafe.ts'
import { ORIGINS_NEEDED, SIGN_ORIGINS } from './neutral-proof.ts'
import type { Asked, JudgeName, Step, StepSequence } from './step-sequence.ts'
import type { UnitAction } from './unit-action.ts'
import { startOfUnit, type UnitState } from './unit-state.ts'

/** Where a mistake would hurt at once; so nothing goes on before its reading is in. */
const NEEDS_HOLD: readonly UnitAction[] = [
  'prove neutral',
  'make the tap drive inoperative',
  'close the bypass',
  'install the jumper',
  'remove the jumper',
  'test dead and ground',
  'remove the grounds',
]

/** What each rule for readings can judge. */
const KIND_FOR: Partial<Readonly<Record<JudgeName, readonly Asked['kind'][]>>> = {
  'volts across at neutral': ['number'],
  'resolution of the meter': ['number'],
  'source volts as expected': ['number'],
  'load volts as expected': ['number'],
  'current as expected': ['number'],
  'torque of shear-head fasteners': ['number'],
  'must be yes': ['yes or no'],
}

/**
 * Faults of an order of steps, one sentence each; none where it may be used. Its actions are tried
 * at one unit by the rules of the switches, from how it stands at the start of each kind of job, and
 * once more without each step that may be left out.
 */
export function checkSequence(sequence: StepSequence): string[] {
  return [
    ...doubled(sequence.steps.map(({ id }) => id)).map(
      (id) => `Two steps have the id “${id}”: every step needs its own.`,
    ),
    ...sequence.steps.flatMap(faultsOfStep),
    ...sequence.forKinds.flatMap((kind) => faultsOfOrder(sequence, kind)),
  ]
}

function faultsOfStep(step: Step): string[] {
  return [
    ...doubled(step.asks.map(({ id }) => id)).map(
      (id) => `Step “${step.id}” asks twice under the id “${id}”.`,
    ),
    ...faultsOfHold(step),
    ...step.asks.flatMap((asked) => faultsOfAsked(step, asked)),
    ...(step.action === 'prove neutral' ? faultsOfProof(step) : []),
  ]
}

function faultsOfHold({ id, action, asks, isHoldPoint, mayBeLeftOut }: Step): string[] {
  const faults: string[] = []
  if (isHoldPoint && !asks.some(({ isNeeded }) => isNeeded)) {
    faults.push(`Hold point “${id}” asks for no reading that is needed, so nothing holds there.`)
  }
  if (isHoldPoint && mayBeLeftOut) {
    faults.push(`Hold point “${id}” may be left out: no hold point may.`)
  }
  if (action && NEEDS_HOLD.includes(action) && !isHoldPoint) {
    faults.push(`Step “${id}” is to ${action}: it has to be a hold point.`)
  }
  return faults
}

function faultsOfAsked({ id }: Step, { id: askId, kind, judge }: Asked): string[] {
  const kinds = judge && KIND_FOR[judge]
  if (!kinds || kinds.includes(kind)) return []
  return [
    `Step “${id}” judges “${askId}” by “${judge}”: that takes a ${kinds.join(' or ')}, not a ${kind}.`,
  ]
}

function faultsOfProof({ id, asks }: Step): string[] {
  const judges = asks.flatMap(({ judge }) => judge ?? [])
  const origins = new Set(judges.flatMap((judge) => SIGN_ORIGINS[judge] ?? []))
  const faults: string[] = []
  if (origins.size < ORIGINS_NEEDED) {
    faults.push(
      `Step “${id}” proves neutral: it has to ask for at least two signs that do not depend on each other (position indicator; lamp or readout of the control; volts across).`,
    )
  }
  if (judges.includes('volts across at neutral') && !judges.includes('resolution of the meter')) {
    faults.push(
      `Step “${id}” asks for volts across, but not what the meter can tell: one step has to show on it.`,
    )
  }
  return faults
}

function faultsOfOrder(sequence: StepSequence, kind: JobKind): string[] {
  const acting = sequence.steps.filter(({ action }) => action)
  if (acting.length === 0) return []
  const start = startOfUnit(kind, sequence)
  const whole = faultsOfRun(kind, start, acting, `For “${kind}”`)
  if (whole.length > 0) return whole
  return acting
    .filter(({ mayBeLeftOut }) => mayBeLeftOut)
    .flatMap((leftOut) =>
      faultsOfRun(
        kind,
        start,
        acting.filter((step) => step !== leftOut),
        `For “${kind}”, with step “${leftOut.id}” left out`,
      ),
    )
}

function faultsOfRun(
  kind: JobKind,
  start: UnitState,
  steps: readonly Step[],
  when: string,
): string[] {
  let state = start
  for (const { id, action } of steps) {
    const outcome = action ? takeAction(state, action) : null
    if (outcome?.ok === false) {
      return [`${when}, step “${id}” cannot ${action}: ${outcome.why.join(' ')}`]
    }
    state = outcome?.state ?? state
  }
  return leftUnsafe(kind, state).map((what) => `${when}, at the end of the unit: ${what}.`)
}

function doubled(ids: readonly string[]): string[] {
  return [...new Set(ids.filter((id, index) => ids.indexOf(id) !== index))]
}
