import { BRIEFING_STEPS } from './briefing-steps.ts'
import { SETTINGS_STEPS } from './fitting-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { ENERGIZE_STEPS, TAKE_LOAD_STEPS } from './return-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

/** For a bank that hangs there under its closed bypass, off the line and without grounds. */
export const RETURN_TO_SERVICE: SequenceDraft = {
  id: 'return-to-service',
  name: 'Returning a bank to service',
  forKinds: ['return a bank to service'],
  bankAtStart: 'bypassed',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8, reversed. Watching the tap before load: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    {
      id: 'as-it-stands',
      text: 'Look at every switch of this unit: bypass closed, source, load and neutral-side switches open, grounds off, tank bonded, leads whole. If anything stands otherwise, stop and call in.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        confirm('switches', 'Bypass closed, the others open'),
        confirm('grounds', 'No grounds left on the unit'),
        confirm('bonded', 'Tank bonded, leads and arresters whole'),
      ],
      signedBy: 'two of the crew',
    },
    ...SETTINGS_STEPS,
    ...ENERGIZE_STEPS,
    ...TAKE_LOAD_STEPS,
    ...AFTER_STEPS,
    ...AS_LEFT_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
