import { BIRD_STEPS, CLEAN_UP_STEPS, VOLTS_BEYOND_STEP } from './left-steps.ts'
import { DEAD_STEPS, GROUNDS_OFF_STEP } from './out-of-service-steps.ts'
import { confirm, type StepDraft } from './step-draft.ts'

/** From units off the line, their drives without supply, to a line that goes on without them. */
export const REMOVAL_STEPS: readonly StepDraft[] = [
  ...DEAD_STEPS,
  {
    id: 'take-down',
    text: 'Unlead the unit, sling it, unbolt it and bring it down. Nobody stands under it.',
    hazard:
      'Weight: see the nameplate. The bypass above is alive: keep boom, winch line and unit outside the approach distance.',
    isHoldPoint: true,
    each: 'unit',
    action: 'take the unit down',
    asks: [
      { id: 'serial', what: 'Serial number', kind: 'text' },
      { id: 'counter', what: 'Operations counter', kind: 'number', unit: '', isNeeded: false },
      confirm('down', 'On the ground, no leak'),
    ],
  },
  {
    ...GROUNDS_OFF_STEP,
    text: 'The unit is down: take the grounds off its leads and count them. Source and load switch stand open. Everybody clear.',
    hazard: 'From here on the leads count as energized.',
  },
  {
    id: 'line-through',
    text: 'Leave the line whole by your own procedure: bypass closed and secured, or a conductor spliced through around it. Take leads, arresters and bonds of the bank down.',
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
      { id: 'amps', what: 'Current in it', kind: 'number', unit: 'A' },
    ],
    signedBy: 'two of the crew',
  },
  VOLTS_BEYOND_STEP,
  ...BIRD_STEPS,
  ...CLEAN_UP_STEPS,
]
