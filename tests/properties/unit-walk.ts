import { takeAction } from '#domain/jobs/bank-switches.ts'
import type { UnitAction } from '#domain/jobs/unit-action.ts'
import { isUnitEnergized, type UnitState } from '#domain/jobs/unit-state.ts'

/** One unit and its switches as recorded, and what nobody but the unit knows. */
export interface Place {
  readonly state: UnitState
  readonly isOffNeutral: boolean
  /** The control is set to automatic and moves the tap when it likes, while its drive can. */
  readonly isAutomatic: boolean
  /** The drive gets its supply as soon as the unit has voltage; the record may know better or not. */
  readonly hasSupply: boolean
}
/** After these the tap may be anywhere: it was moved, or it is the tap of another unit. */
export const MOVES_THE_TAP: readonly UnitAction[] = [
  'run to neutral',
  'tap through raise and lower',
  'restore the tap drive',
  'set the unit',
]

export const BOTH = [true, false]

/** How the control may be set afterwards: running to neutral is done in manual. */
function settingsAfter(action: UnitAction, { isAutomatic }: Place): readonly boolean[] {
  if (action === 'run to neutral') return [false]
  return MOVES_THE_TAP.includes(action) ? BOTH : [isAutomatic]
}

/**
 * Everywhere that an action can lead; nowhere where it is not allowed. The signs that prove neutral
 * are taken to be true: what they must be is tested where they are judged.
 */
export function placesAfter(from: Place, action: UnitAction): Place[] {
  const outcome = takeAction(from.state, action)
  if (!outcome.ok || (action === 'prove neutral' && from.isOffNeutral)) return []
  const taps = MOVES_THE_TAP.includes(action) ? BOTH : [from.isOffNeutral]
  return taps.flatMap((isOffNeutral) =>
    settingsAfter(action, from).flatMap((isAutomatic) =>
      suppliesAfter(action, from).map((hasSupply) => ({
        ...{ state: outcome.state, isOffNeutral, isAutomatic, hasSupply },
      })),
    ),
  )
}

/** Who sets a unit may have left its supply on or off. */
function suppliesAfter(action: UnitAction, { hasSupply }: Place): readonly boolean[] {
  if (action === 'make the tap drive inoperative') return [false]
  if (action === 'restore the tap drive') return [true]
  return action === 'set the unit' ? BOTH : [hasSupply]
}

/** A control in automatic moves the tap by itself. */
export function driftsFrom(place: Place): Place[] {
  const canMove = place.isAutomatic && place.hasSupply && isUnitEnergized(place.state)
  return canMove ? [{ ...place, isOffNeutral: !place.isOffNeutral }] : []
}

/** A unit at any tap, with or without supply. */
export function anyTap(state: UnitState): Place[] {
  return BOTH.flatMap((isOffNeutral) =>
    BOTH.map((hasSupply) => ({ state, isOffNeutral, isAutomatic: true, hasSupply })),
  )
}
