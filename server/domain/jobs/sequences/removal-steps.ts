import { BIRD_STEPS } from './bird-steps.ts'
import { CLEAN_UP_STEPS, VOLTS_BEYOND_STEP } from './left-steps.ts'
import { GROUNDS_OFF_STEP, switchesLockedStep, testDeadStep } from './out-of-service-steps.ts'
import { COUNTER, confirm, type StepDraft } from './step-draft.ts'

/**
 * From units off the line, their drives without supply, to a line that goes on without them. Grounds
 * come off last, when nobody has to handle a lead any more.
 */
export const REMOVAL_STEPS: readonly StepDraft[] = [
  switchesLockedStep('bypass'),
  testDeadStep('bypass'),
  {
    id: 'take-down',
    text: 'Unlead the unit at its bushings, sling it, unbolt it and bring it down. The grounds stay on the leads. Nobody stands under it.',
    hazard:
      'Weight: see the nameplate. The bypass above is alive: keep boom, winch line and unit outside the approach distance.',
    isHoldPoint: true,
    each: 'unit',
    action: 'take the unit down',
    asks: [
      {
        id: 'serial',
        what: 'Serial number',
        kind: 'text',
        judge: 'serial number of one unit',
      },
      { ...COUNTER, isNeeded: false },
      confirm(
        'down',
        'On the ground, no leak',
        'Keep people and drains away from the oil, and report it as your rules ask.',
      ),
    ],
  },
  {
    id: 'leads-down',
    text: 'With the grounds still on, take down leads, arresters and bonds of this unit. How a lead comes off its switch, your own procedure says. The grounds come off last.',
    hazard:
      'The line side of each open switch and the bypass are alive: keep the approach distance.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'down',
        'Leads, arresters and bonds down; nobody has to handle them again',
        'Leave the grounds on until they are: without grounds a lead counts as energized.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    ...GROUNDS_OFF_STEP,
    text: 'Unit and leads are down: take the grounds off and count them. The switches stay open and locked. Everybody clear.',
    hazard: 'From here on what is left on the unit side of the switches counts as energized.',
  },
  {
    id: 'line-through',
    text: 'Leave the line whole by your own procedure: bypass closed and secured, or a conductor spliced through around it. Measure its current.',
    hazard: 'Never open the bypass before the new path around it is closed and proven.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      {
        id: 'path',
        what: 'The line goes through',
        kind: 'choice',
        options: ['the closed bypass', 'a conductor spliced through'],
      },
      {
        id: 'amps',
        what: 'Current in it, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'carries the current',
      },
    ],
    signedBy: 'two of the crew',
  },
  VOLTS_BEYOND_STEP,
  ...BIRD_STEPS,
  ...CLEAN_UP_STEPS,
]
