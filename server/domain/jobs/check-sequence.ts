import type { Regulator } from '../feeder/equipment.ts'
import { type BankAtStart, bankAtStartOf } from './bank-at-start.ts'
import { takeAction } from './bank-switches.ts'
import type { JobKind } from './job-kind.ts'
import { baseOf, countOf } from './judge-tapping.ts'
import { leftUnsafe } from './left-unsafe.ts'
import { ORIGINS_NEEDED, SIGN_ORIGINS } from './neutral-proof.ts'
import { sequenceForBank } from './sequence-for-bank.ts'
import type { Asked, JudgeName, Step, StepSequence } from './step-sequence.ts'
import { NEUTRAL_SIDE_ACTIONS, type UnitAction } from './unit-action.ts'
import { startOfUnit, type UnitState } from './unit-state.ts'

/**
 * Everything that switches, grounds or lifts is where a mistake would hurt at once, so nothing goes
 * on before its reading is in. Opening source and load switch too: under load an arc is drawn where
 * the bypass does not carry, and what comes next takes the blades to be open. These three only move
 * the tap, of a unit that nothing bridges, and its neutral is proven before anything builds on it.
 */
const NEEDS_NO_HOLD: readonly UnitAction[] = [
  'run to neutral',
  'tap through raise and lower',
  'restore the tap drive',
]

/** What each rule for readings can judge. */
const KIND_FOR: Partial<Readonly<Record<JudgeName, readonly Asked['kind'][]>>> = {
  'volts across at neutral': ['number'],
  'resolution of the meter': ['number'],
  'source volts as expected': ['number'],
  'load volts as expected': ['number'],
  'current as expected': ['number'],
  'carries a share of the current': ['number'],
  'carries the current': ['number'],
  'rating above the current': ['number'],
  'volts rise with raises': ['number'],
  'volts fall with lowers': ['number'],
  'torque of shear-head fasteners': ['number'],
  'torque marked on the connector': ['number'],
  'serial number of one unit': ['text'],
  'must be yes': ['yes or no'],
}

/**
 * Faults of an order of steps, one sentence each; none where it may be used. Its actions are tried
 * at one unit by the rules of the switches, from how it stands at the start of each kind of job: at
 * a bank without a neutral-side switch and at one with it, and once more without each step that may
 * be left out.
 */
export function checkSequence(sequence: StepSequence): string[] {
  return [
    ...doubled(sequence.steps.map(({ id }) => id)).map(
      (id) => `Two steps have the id “${id}”: every step needs its own.`,
    ),
    ...sequence.steps.flatMap(faultsOfStep),
    ...faultsOfStart(sequence),
    ...sequence.forKinds.flatMap((kind) => faultsOfOrder(sequence, kind)),
  ]
}

/** How the bank of each kind of job may stand at its start; a kind that is left out has no say. */
const STARTS: Partial<Readonly<Record<JobKind, readonly BankAtStart[]>>> = {
  'take a bank out of service': ['in service'],
  'return a bank to service': ['bypassed'],
  'change settings': ['in service'],
}

function faultsOfStart(sequence: StepSequence): string[] {
  const { bankAtStart, forKinds } = sequence
  const start = bankAtStartOf(sequence)
  const others = forKinds.filter((kind) => kind !== 'set a bank')
  const sets = others.length < forKinds.length
  if (start !== null && sets && others.length > 0) {
    return [
      `Where a bank is set none stands at the start, and where one is to ${others[0]} one does: give “set a bank” an order of its own.`,
    ]
  }
  if (sets && (bankAtStart || start === 'bypassed')) {
    return [
      `Where a bank is set none stands at the start: the order cannot begin with one ${start}.`,
    ]
  }
  return forKinds.flatMap((kind) => {
    const fitting = STARTS[kind]
    if (start === null || !fitting || fitting.includes(start)) return []
    return [`For “${kind}” the bank stands ${fitting.join(' or ')} at the start, not ${start}.`]
  })
}

function faultsOfStep(step: Step): string[] {
  return [
    ...doubled(step.asks.map(({ id }) => id)).map(
      (id) => `Step “${step.id}” asks twice under the id “${id}”.`,
    ),
    ...faultsOfHold(step),
    ...faultsOfNeutralSide(step),
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
  if (action && !NEEDS_NO_HOLD.includes(action) && !isHoldPoint) {
    faults.push(`Step “${id}” is to ${action}: it has to be a hold point.`)
  }
  return faults
}

function faultsOfNeutralSide({ id, action, onlyWith }: Step): string[] {
  if (!action || !NEUTRAL_SIDE_ACTIONS.includes(action)) return []
  if (onlyWith === 'a neutral-side switch') return []
  return [
    `Step “${id}” works a neutral-side switch, which not every bank has: say that it is only for a bank with one, and in the record which banks have it.`,
  ]
}

function faultsOfAsked(step: Step, asked: Asked): string[] {
  const { id } = step
  const { id: askId, kind, judge } = asked
  const kinds = judge && KIND_FOR[judge]
  if (kinds && !kinds.includes(kind)) {
    return [
      `Step “${id}” judges “${askId}” by “${judge}”: that takes a ${kinds.join(' or ')}, not a ${kind}.`,
    ]
  }
  return [...faultsOfRange(step, asked), ...faultsOfNo(step, asked), ...faultsOfTaps(step, asked)]
}

function faultsOfRange({ id }: Step, asked: Asked): string[] {
  if (asked.kind !== 'number') return []
  const { least = -Infinity, most = Infinity } = asked
  return least <= most
    ? []
    : [`Step “${id}” asks for “${asked.id}” of at least ${least} and at most ${most}: none is.`]
}

function faultsOfNo({ id }: Step, asked: Asked): string[] {
  if (asked.kind !== 'yes or no' || !asked.ifNo || asked.judge === 'must be yes') return []
  return [
    `Step “${id}” says what a no to “${asked.id}” means, but takes a no as it is: judge it by “must be yes”.`,
  ]
}

const isOfTapping = ({ judge }: Asked) =>
  judge === 'volts rise with raises' || judge === 'volts fall with lowers'

/** Volts after some steps tell nothing without those before them and the count of steps. */
function faultsOfTaps(step: Step, asked: Asked): string[] {
  if (!isOfTapping(asked)) return []
  if (baseOf(step)?.isNeeded && countOf(step, asked)?.isNeeded) return []
  return [
    `Step “${step.id}” judges “${asked.id}” by “${asked.judge}”: ask in it, as needed, for the volts at neutral, judged by “source volts as expected”, and ahead of it for the number of steps.`,
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

const NEUTRAL_SIDES = [
  { neutralSide: 'solid', at: '' },
  { neutralSide: 'switched', at: ' at a bank with a neutral-side switch' },
] as const

/** A fault at every bank is told once. */
function faultsOfOrder(sequence: StepSequence, kind: JobKind): string[] {
  for (const { neutralSide, at } of NEUTRAL_SIDES) {
    const faults = faultsForBank(sequence, kind, { neutralSide }, `For “${kind}”${at}`)
    if (faults.length > 0) return faults
  }
  return []
}

function faultsForBank(
  whole: StepSequence,
  kind: JobKind,
  bank: Pick<Regulator, 'neutralSide'>,
  when: string,
): string[] {
  const sequence = sequenceForBank(whole, bank)
  if (sequence.steps.length === 0) return [`${when}, no step is left.`]
  const acting = sequence.steps.filter(({ action }) => action)
  if (acting.length === 0) return []
  const start = startOfUnit(kind, sequence, bank)
  const faults = faultsOfRun(kind, start, acting, when)
  if (faults.length > 0) return faults
  return acting
    .filter(({ mayBeLeftOut }) => mayBeLeftOut)
    .flatMap((leftOut) =>
      faultsOfRun(
        kind,
        start,
        acting.filter((step) => step !== leftOut),
        `${when}, with step “${leftOut.id}” left out`,
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
  for (const { id, action, asks } of steps) {
    if (asks.some(isOfTapping) && !state.isSourceClosed) {
      return [
        `${when}, step “${id}” reads volts that are to follow the tap of a unit that is not fed from its source side: there they do not.`,
      ]
    }
    const outcome = action ? takeAction(state, action) : null
    if (outcome?.ok === false) {
      return [`${when}, step “${id}” cannot ${action}: ${outcome.why.join(' ')}`]
    }
    state = outcome?.state ?? state
  }
  return leftUnsafe(kind, state, start).map((what) => `${when}, at the end of the unit: ${what}.`)
}

function doubled(ids: readonly string[]): string[] {
  return [...new Set(ids.filter((id, index) => ids.indexOf(id) !== index))]
}
