import { NEUTRAL_SIDE_OPEN_STEP } from './neutral-side-steps.ts'
import { COUNTER, confirm, type StepDraft, tapAsk } from './step-draft.ts'

/** What the crew finds where a bank hangs bypassed, before it changes anything. */
export const FOUND_BYPASSED_STEPS: readonly StepDraft[] = [
  {
    id: 'as-it-stands',
    text: 'Look at every switch of this unit: bypass closed, source and load switch open and tagged, grounds off, tank bonded, leads whole. If anything stands otherwise, stop and call in.',
    hazard: 'The unit is not grounded: it counts as energized, and the bypass above it is alive.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'switches',
        'Bypass closed, source and load switch open',
        'The record is wrong: touch nothing, call in, and give the job back.',
      ),
      confirm(
        'grounds',
        'No grounds left on the unit',
        'Somebody may be working under them: call the dispatcher before anybody touches them.',
      ),
      confirm(
        'bonded',
        'Tank bonded, leads and arresters whole',
        'The tank may stand at line voltage: touch neither tank nor cabinet, and call in.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  NEUTRAL_SIDE_OPEN_STEP,
  {
    id: 'found',
    text: 'Before anything is changed, measure the line at this unit by meters on sticks that are rated for line volts, and read the unit from outside. Both sides of a closed bypass have the same volts.',
    hazard: 'Line and bypass are at line volts: reach them by sticks alone.',
    each: 'unit',
    readsAsFound: true,
    asks: [
      tapAsk('tap', 'Position indicator on the unit'),
      { ...COUNTER, isNeeded: false },
      {
        id: 'source-volts',
        what: 'Volts of the line on the source side, phase to neutral',
        kind: 'number',
        unit: 'V',
        isNeeded: false,
        judge: 'source volts as expected',
      },
      {
        id: 'load-volts',
        what: 'Volts of the line on the load side, phase to neutral',
        kind: 'number',
        unit: 'V',
        isNeeded: false,
        judge: 'load volts as expected',
      },
      {
        id: 'amps',
        what: 'Current in the bypass, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'current as expected',
      },
    ],
  },
]

/** Before hands come near a unit that hangs bypassed. */
export const DRIVE_WITHOUT_SUPPLY_STEP: StepDraft = {
  id: 'drive-inoperative',
  text: 'Make sure that control and motor of this unit have no supply, neither of its own nor from outside: opened and tagged.',
  hazard: 'A supply at the control can feed back through the unit to its bushings.',
  isHoldPoint: true,
  each: 'unit',
  action: 'make the tap drive inoperative',
  asks: [
    confirm(
      'isolated',
      'Every supply opened and tagged',
      'The unit may be fed back to line voltage: keep off it until every supply is found and open.',
    ),
  ],
}
