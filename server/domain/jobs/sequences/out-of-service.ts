import { BIRD_STEPS } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { CLEAN_UP_STEPS, VOLTS_BEYOND_STEP } from './left-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import {
  NO_VOLTAGE,
  OFF_THE_LINE_STEPS,
  switchesLockedStep,
  TESTER_PROVEN,
} from './out-of-service-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

/**
 * Ends with the units hanging off the line, under their closed bypasses, tagged and without grounds.
 * Nobody works on them here, so nobody has to ground them.
 */
export const OUT_OF_SERVICE: SequenceDraft = {
  id: 'out-of-service',
  name: 'Taking a bank out of service',
  forKinds: ['take a bank out of service'],
  bankAtStart: 'in service',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8. Signs of neutral and the rest: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_STEPS,
    ...neutralSteps(),
    ...OFF_THE_LINE_STEPS,
    switchesLockedStep('bypass'),
    {
      id: 'off-the-line',
      text: 'Look at every blade once more, and test the bushings of this unit for voltage with a tester that is proven before and after. Measure the current in the bypass.',
      hazard:
        'Without grounds it counts as energized. Who is to work on it tests it dead and grounds it first, by your own procedure, and takes the grounds off again.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        TESTER_PROVEN,
        NO_VOLTAGE('none', 'No voltage on any bushing'),
        confirm(
          'no-grounds',
          'No grounds left on the unit',
          'Take them off and count them: whoever closes a switch next would short the line.',
        ),
        {
          id: 'amps',
          what: 'Current in the bypass, by an ammeter on a stick',
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
  ],
}
