import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { BIRD_STEPS, CLEAN_UP_STEPS, VOLTS_BEYOND_STEP } from './left-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { OFF_THE_LINE_STEPS } from './out-of-service-steps.ts'
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
    {
      id: 'off-the-line',
      text: 'Look at every blade once more, and test the bushings of this unit for voltage with a tester that is proven before and after. Measure the current in the bypass.',
      hazard:
        'Without grounds it counts as energized. Who is to work on it tests it dead and grounds it first, by your own procedure, and takes the grounds off again.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        confirm('tester', 'Tester proven before and after'),
        confirm('none', 'No voltage on any bushing'),
        { id: 'amps', what: 'Current in the bypass', kind: 'number', unit: 'A' },
      ],
      signedBy: 'two of the crew',
    },
    {
      id: 'tags',
      text: 'Lock and tag what keeps this unit off the line: its switches, its control, the supply of its motor. Tag the bypass too: it carries the line.',
      hazard: 'Who opens the bypass drops every customer beyond.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        confirm('tagged', 'Switches, control and bypass locked and tagged'),
        confirm('no-grounds', 'No grounds left on the unit'),
      ],
    },
    VOLTS_BEYOND_STEP,
    ...BIRD_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
