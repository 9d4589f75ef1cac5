import type { JobKind } from './job-kind.ts'
import type { StepSequence } from './step-sequence.ts'
import type { UnitAction } from './unit-action.ts'

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

/** Hangs in its place without voltage; the line runs past it. */
export const UNDER_BYPASS: UnitState = {
  ...IN_SERVICE,
  isSourceClosed: false,
  isLoadClosed: false,
  neutralSide: 'open',
  isBypassClosed: true,
}

/** No unit hangs there; the line runs straight on. */
export const NOT_YET_SET: UnitState = { ...UNDER_BYPASS, isUp: false, isDriveOperative: false }

const LINE_SWITCHES: readonly UnitAction[] = [
  'close the source switch',
  'open the source switch',
  'close the load switch',
  'open the load switch',
]

/**
 * How a unit stands before the first step. A bank that is to be set is not there yet, every other
 * one runs in service; only an order of steps that begins by closing the switches of a unit that
 * hangs there takes it to be out of service.
 */
export function startOfUnit(kind: JobKind, sequence: StepSequence): UnitState {
  const actions = sequence.steps.flatMap(({ action }) => action ?? [])
  const base = startBase(kind, actions)
  const hasNeutralSwitch = actions.some(
    (action) =>
      action === 'close the neutral-side switch' || action === 'open the neutral-side switch',
  )
  return hasNeutralSwitch ? base : { ...base, neutralSide: 'solid' }
}

function startBase(kind: JobKind, actions: readonly UnitAction[]): UnitState {
  const first = actions.find(
    (action) =>
      LINE_SWITCHES.includes(action) ||
      action === 'set the unit' ||
      action === 'take the unit down',
  )
  if (first === 'close the source switch' || first === 'close the load switch') return UNDER_BYPASS
  return kind === 'set a bank' ? NOT_YET_SET : IN_SERVICE
}
