import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { CLEAN_UP_STEPS } from './left-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { DEAD_STEPS, GROUNDS_OFF_STEP, OFF_THE_LINE_STEPS } from './out-of-service-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

/** Ends with the units hanging off the line, under their closed bypasses. */
export const OUT_OF_SERVICE: SequenceDraft = {
  id: 'out-of-service',
  name: 'Taking a bank out of service',
  forKinds: ['take a bank out of service'],
  bankAtStart: 'in service',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8. Signs of neutral: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_STEPS,
    ...neutralSteps(),
    ...OFF_THE_LINE_STEPS,
    ...DEAD_STEPS,
    {
      id: 'work',
      text: 'Now the unit may be worked on. Put locks and tags on every switch that keeps it off the line.',
      hazard: 'The bypass beside it is alive, and customers beyond live on it.',
      each: 'unit',
      asks: [
        confirm('tagged', 'Switches locked and tagged'),
        { id: 'done', what: 'What was done on it', kind: 'text', isNeeded: false },
      ],
    },
    GROUNDS_OFF_STEP,
    ...CLEAN_UP_STEPS,
  ],
}
