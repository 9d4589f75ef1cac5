import { BIRD_STEPS } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_BYPASSED_STEPS } from './bypassed-steps.ts'
import { SETTINGS_STEPS } from './fitting-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { ENERGIZE_STEPS, TAKE_LOAD_STEPS, TRY_TAPS_STEPS } from './return-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'

/**
 * For a bank that hangs there under its closed bypass, off the line and without grounds. Settings go
 * in when the control has its power from the unit: one from outside could feed back through it. Bird
 * work comes before the units are alive; who does it dead and grounded takes the grounds off again.
 */
export const RETURN_TO_SERVICE: SequenceDraft = {
  id: 'return-to-service',
  name: 'Returning a bank to service',
  forKinds: ['return a bank to service'],
  bankAtStart: 'bypassed',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8, reversed. Watching the tap before load: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_BYPASSED_STEPS,
    ...BIRD_STEPS,
    ...ENERGIZE_STEPS,
    ...SETTINGS_STEPS,
    ...TRY_TAPS_STEPS,
    ...TAKE_LOAD_STEPS,
    ...AFTER_STEPS,
    ...AS_LEFT_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
