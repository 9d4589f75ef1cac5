import { BRIEFING_STEPS } from './briefing-steps.ts'
import { DRIVE_WITHOUT_SUPPLY_STEP, FOUND_BYPASSED_STEPS } from './bypassed-steps.ts'
import { NEW_UNIT_STEPS } from './fitting-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { SWAP_STEPS } from './swap-steps.ts'

export const CHANGE_OUT_BYPASSED: SequenceDraft = {
  id: 'change-out-bypassed',
  name: 'Change-out of a bank that hangs bypassed, the line over a temporary jumper',
  forKinds: ['change out a bank'],
  bankAtStart: 'bypassed',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8, reversed. Signs of neutral, jumper, torque and watching the tap before load: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...NEW_UNIT_STEPS,
    ...FOUND_BYPASSED_STEPS,
    DRIVE_WITHOUT_SUPPLY_STEP,
    ...SWAP_STEPS,
  ],
}
