import type { Regulator } from '../feeder/equipment.ts'
import { bankAtStartOf } from './bank-at-start.ts'
import type { JobKind } from './job-kind.ts'
import { isSwitched, settingPlace } from './sequence-for-bank.ts'
import type { StepSequence } from './step-sequence.ts'
import { NEUTRAL_SIDE_ACTIONS } from './unit-action.ts'

/** How one unit of a bank and the switches around it stand, as far as the record says. */
export interface UnitState {
  /** It hangs in its place with its leads on; otherwise it is off the pole. */
  readonly isUp: boolean
  /** Source (S) and load (L) disconnect switches. */
  readonly isSourceClosed: boolean
  readonly isLoadClosed: boolean
  /** Neutral-side (S-L) disconnect switch; solid where none is fitted. */
  readonly neutralSide: 'open' | 'closed' | 'solid'
  /** The straight way of the line past the unit: its bypass switch or the conductor itself. */
  readonly isBypassClosed: boolean
  /** Temporary jumper around unit and bypass. */
  readonly isJumperOn: boolean
  /** `at neutral` was run there in manual and nobody proved it yet. */
  readonly tap: 'unknown' | 'at neutral' | 'proven at neutral'
  /** The motor can move the taps; taken to be so until it is made inoperative. */
  readonly isDriveOperative: boolean
  /** Tested dead, and grounds are on its leads. */
  readonly isGrounded: boolean
}

/** The line runs through the unit. */
export function isThroughUnit(state: UnitState): boolean {
  return state.isUp && state.isSourceClosed && state.isLoadClosed
}

/** Source and load switch are open. */
export function isOffTheLine({ isSourceClosed, isLoadClosed }: UnitState): boolean {
  return !isSourceClosed && !isLoadClosed
}

/** Something lies across the series winding: off neutral that is a short circuit. */
export function isBridged(state: UnitState): boolean {
  return isThroughUnit(state) && (state.isBypassClosed || state.isJumperOn)
}

/** Customers beyond are fed. */
export function isLineWhole(state: UnitState): boolean {
  return state.isBypassClosed || state.isJumperOn || isThroughUnit(state)
}

/** Its windings are under voltage from one side or both. */
export function isUnitEnergized(state: UnitState): boolean {
  return state.isUp && (state.isSourceClosed || state.isLoadClosed)
}

/** Run in service: nobody knows the tap, and the control may move it. */
export const IN_SERVICE: UnitState = {
  isUp: true,
  isSourceClosed: true,
  isLoadClosed: true,
  neutralSide: 'closed',
  isBypassClosed: false,
  isJumperOn: false,
  tap: 'unknown',
  isDriveOperative: true,
  isGrounded: false,
}

/**
 * Hangs in its place off the line, which runs past it. Nobody knows the tap, and the drive counts as
 * operative until it is made inoperative: what others left weeks ago is no proof. Grounds are off.
 */
export const UNDER_BYPASS: UnitState = {
  ...IN_SERVICE,
  isSourceClosed: false,
  isLoadClosed: false,
  neutralSide: 'open',
  isBypassClosed: true,
}

/** No unit hangs there; the line runs straight on. */
export const NOT_YET_SET: UnitState = { ...UNDER_BYPASS, isUp: false, isDriveOperative: false }

/**
 * How a unit stands before the first step. A bank that is to be set is not there yet; every other
 * one stands as the order of steps takes it to.
 *
 * @param bank of the job, for the switch that it has at its neutral side
 */
export function startOfUnit(
  kind: JobKind,
  sequence: StepSequence,
  bank?: Pick<Regulator, 'neutralSide'>,
): UnitState {
  const base = startBase(kind, sequence)
  return { ...base, neutralSide: neutralSideOf(base, sequence, bank) }
}

function startBase(kind: JobKind, sequence: StepSequence): UnitState {
  const start = bankAtStartOf(sequence)
  // Older orders for setting a bank may begin at units that hang there already.
  const isOlder = sequence.bankAtStart === undefined
  if (kind === 'set a bank' && !(isOlder && start === 'bypassed')) return NOT_YET_SET
  return start === 'bypassed' ? UNDER_BYPASS : IN_SERVICE
}

/**
 * An order that works the switch begins with it as it stands. One that does not leaves it closed in
 * a unit in service, which is as good as solid; at a unit off the line it may be open. What is
 * worked after a unit is set may be the switch of the new one alone.
 */
function neutralSideOf(
  base: UnitState,
  { steps }: StepSequence,
  bank: Pick<Regulator, 'neutralSide'> | undefined,
): UnitState['neutralSide'] {
  const isOwn = isSwitched(bank) || !base.isUp
  const atUnit = isOwn ? steps : steps.slice(0, settingPlace(steps))
  if (atUnit.some(({ action }) => action && NEUTRAL_SIDE_ACTIONS.includes(action))) {
    return base.neutralSide
  }
  return isSwitched(bank) && base.neutralSide === 'open' ? 'open' : 'solid'
}
