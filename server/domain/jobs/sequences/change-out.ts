import { BRIEFING_STEPS } from './briefing-steps.ts'
import { NEW_UNIT_STEPS } from './fitting-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { OFF_THE_LINE_STEPS } from './out-of-service-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { SWAP_STEPS } from './swap-steps.ts'

export const CHANGE_OUT: SequenceDraft = {
  id: 'change-out',
  name: 'Change-out under bypass, the line over a temporary jumper',
  forKinds: ['change out a bank'],
  bankAtStart: 'in service',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8. Signs of neutral, jumper, torque and watching the tap before load: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...NEW_UNIT_STEPS,
    ...FOUND_STEPS,
    ...neutralSteps(),
    ...OFF_THE_LINE_STEPS,
    ...SWAP_STEPS,
  ],
}
