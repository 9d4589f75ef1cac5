import type { UnitAction } from './unit-action.ts'
import {
  isBridged,
  isLineWhole,
  isOffTheLine,
  isThroughUnit,
  type UnitState,
} from './unit-state.ts'

/** What must be so before something is done, and the sentence where it is not. */
interface Rule {
  readonly isMet: (state: UnitState) => boolean
  readonly otherwise: string
}

/*
 * The order (manual, neutral, control power opened, bypass closed, line switches opened, then the
 * neutral-side switch; the reverse to set) is that of NAVFAC MO-201, 3.3.8 and figure 3-10. Which
 * of the two line switches goes first is for the utility's own procedure. Rules beyond that order
 * are common practice, no source.
 */

const rule = (isMet: Rule['isMet'], otherwise: string): Rule => ({ isMet, otherwise })

const isUp = rule(({ isUp: up }) => up, 'No unit hangs there: set it and connect its leads first.')
const isProven = ({ tap }: UnitState) => tap === 'proven at neutral'
const isDriveDead = ({ isDriveOperative }: UnitState) => !isDriveOperative

export const NOT_PROVEN =
  'Neutral is not proven: run the unit to neutral in manual and prove it by at least two independent signs that agree.'
const DRIVE_LIVE =
  'The tap drive can still move the unit off neutral: make it inoperative and tag it first.'

/** Before something comes to lie across the series winding. */
function neutralWhere(willBridge: (state: UnitState) => boolean): readonly Rule[] {
  return [
    rule((state) => !willBridge(state) || isProven(state), NOT_PROVEN),
    rule((state) => !willBridge(state) || isDriveDead(state), DRIVE_LIVE),
  ]
}

const isNotBridged = rule(
  (state) => !isBridged(state),
  'Source switch, load switch and a way past the unit are all closed: one step now shorts the series winding. Open the way past it, or one of its switches, first.',
)
const drivePowered = rule(
  ({ isDriveOperative }) => isDriveOperative,
  'The tap drive is inoperative: restore it first, where that is allowed.',
)
const isOffGrounds = rule(
  ({ isGrounded }) => !isGrounded,
  'Grounds are on the unit: take them off before any of its switches is closed or its drive is restored.',
)
const isOnGrounds = rule(
  ({ isGrounded }) => isGrounded,
  'No grounds are on its leads, and what is not grounded is not dead: test it dead and ground it first.',
)
const isOff = rule(
  isOffTheLine,
  'The unit is still on the line: open its source and its load switch first.',
)
const isOffTheNeutral = rule(
  ({ neutralSide }) => neutralSide !== 'closed',
  'The neutral-side switch is still closed, so the unit is not isolated: open it first.',
)
const hasItsNeutral = rule(
  ({ neutralSide }) => neutralSide !== 'open',
  'The neutral-side switch is open: close it first, or the neutral bushing comes to line voltage.',
)
const hasNeutralSwitch = rule(
  ({ neutralSide }) => neutralSide !== 'solid',
  'This order of steps knows no neutral-side switch.',
)

const already = (isSo: (state: UnitState) => boolean, what: string): Rule =>
  rule(
    (state) => !isSo(state),
    `${what} already, as recorded: look at it and at the entries before anything else is done.`,
  )

const keepsLine = (after: (state: UnitState) => UnitState, what: string): Rule =>
  rule(
    (state) => isLineWhole(after(state)),
    `Nothing else carries the line: ${what} would interrupt the customers beyond and break load current. Close another way first.`,
  )

const lineSwitch = (after: (state: UnitState) => UnitState): readonly Rule[] => [
  isUp,
  isOffGrounds,
  hasItsNeutral,
  ...neutralWhere((state) => isBridged(after(state))),
]

/** All that must be so before each action. */
const RULES: Readonly<Record<UnitAction, readonly Rule[]>> = {
  'run to neutral': [isUp, isNotBridged, drivePowered],
  'tap through raise and lower': [isUp, isNotBridged, drivePowered],
  'prove neutral': [
    isUp,
    rule(
      ({ tap, isDriveOperative }) => tap !== 'unknown' || !isDriveOperative,
      'The control may still move it: set it to manual and run the unit to neutral first.',
    ),
  ],
  'make the tap drive inoperative': [isUp],
  'restore the tap drive': [isUp, isNotBridged, isOffGrounds],
  // Held to neutral wherever a unit hangs, switched off or not: one rule that needs no looking up.
  'close the bypass': [
    already(({ isBypassClosed }) => isBypassClosed, 'The bypass is closed'),
    ...neutralWhere((state) => state.isUp),
  ],
  'open the bypass': [
    already(({ isBypassClosed }) => !isBypassClosed, 'The bypass is open'),
    keepsLine((state) => ({ ...state, isBypassClosed: false }), 'opening the bypass'),
  ],
  'close the source switch': [
    already(({ isSourceClosed }) => isSourceClosed, 'The source switch is closed'),
    ...lineSwitch((state) => ({ ...state, isSourceClosed: true })),
  ],
  'open the source switch': [
    already(({ isSourceClosed }) => !isSourceClosed, 'The source switch is open'),
    keepsLine((state) => ({ ...state, isSourceClosed: false }), 'opening the source switch'),
  ],
  'close the load switch': [
    already(({ isLoadClosed }) => isLoadClosed, 'The load switch is closed'),
    ...lineSwitch((state) => ({ ...state, isLoadClosed: true })),
  ],
  'open the load switch': [
    already(({ isLoadClosed }) => !isLoadClosed, 'The load switch is open'),
    keepsLine((state) => ({ ...state, isLoadClosed: false }), 'opening the load switch'),
  ],
  'close the neutral-side switch': [
    hasNeutralSwitch,
    already(({ neutralSide }) => neutralSide === 'closed', 'The neutral-side switch is closed'),
    isUp,
    isOffGrounds,
  ],
  'open the neutral-side switch': [
    hasNeutralSwitch,
    already(({ neutralSide }) => neutralSide === 'open', 'The neutral-side switch is open'),
    isOff,
  ],
  'install the jumper': [
    already(({ isJumperOn }) => isJumperOn, 'The jumper is on'),
    ...neutralWhere(isThroughUnit),
  ],
  'remove the jumper': [
    already(({ isJumperOn }) => !isJumperOn, 'The jumper is off'),
    keepsLine((state) => ({ ...state, isJumperOn: false }), 'taking the jumper off'),
  ],
  'test dead and ground': [
    already(({ isGrounded }) => isGrounded, 'The grounds are on'),
    isOff,
    isOffTheNeutral,
    rule(
      isDriveDead,
      'The tap drive has its supply, and a supply at the control can feed back through the unit: make it inoperative and tag it first.',
    ),
  ],
  'remove the grounds': [already(({ isGrounded }) => !isGrounded, 'The grounds are off')],
  'take the unit down': [isUp, isOff, isOffTheNeutral, isOnGrounds],
  'set the unit': [
    already(({ isUp: up }) => up, 'The unit is up'),
    isOff,
    isOffTheNeutral,
    isOnGrounds,
  ],
}

/** What each action changes. */
const CHANGES: Readonly<Record<UnitAction, Partial<UnitState>>> = {
  'run to neutral': { tap: 'at neutral' },
  'prove neutral': { tap: 'proven at neutral' },
  'make the tap drive inoperative': { isDriveOperative: false },
  'restore the tap drive': { isDriveOperative: true, tap: 'unknown' },
  'tap through raise and lower': { tap: 'unknown' },
  'close the bypass': { isBypassClosed: true },
  'open the bypass': { isBypassClosed: false },
  'close the source switch': { isSourceClosed: true },
  'open the source switch': { isSourceClosed: false },
  'close the load switch': { isLoadClosed: true },
  'open the load switch': { isLoadClosed: false },
  'close the neutral-side switch': { neutralSide: 'closed' },
  'open the neutral-side switch': { neutralSide: 'open' },
  'install the jumper': { isJumperOn: true },
  'remove the jumper': { isJumperOn: false },
  'test dead and ground': { isGrounded: true },
  'remove the grounds': { isGrounded: false },
  'take the unit down': { isUp: false, tap: 'unknown', isDriveOperative: false },
  // Nobody has opened its supply yet: with voltage from the line its control may run.
  'set the unit': { isUp: true, tap: 'unknown', isDriveOperative: true },
}

export type ActionOutcome =
  | { readonly ok: true; readonly state: UnitState }
  | { readonly ok: false; readonly why: readonly string[] }

/**
 * One action at one unit, or all reasons why it is not to be done. `prove neutral` takes the proof
 * as given; whether the signs give it says `neutral-proof.ts`.
 */
export function takeAction(state: UnitState, action: UnitAction): ActionOutcome {
  const why = RULES[action].filter(({ isMet }) => !isMet(state)).map(({ otherwise }) => otherwise)
  return why.length > 0 ? { ok: false, why } : { ok: true, state: { ...state, ...CHANGES[action] } }
}
