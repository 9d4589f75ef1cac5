import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { OFF_THE_LINE_STEPS } from './out-of-service-steps.ts'
import { REMOVAL_STEPS } from './removal-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'

export const REMOVE_BANK: SequenceDraft = {
  id: 'remove-bank',
  name: 'Removing a bank in service',
  forKinds: ['remove a bank'],
  bankAtStart: 'in service',
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8. Signs of neutral and the rest: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_STEPS,
    ...neutralSteps(),
    ...OFF_THE_LINE_STEPS,
    ...REMOVAL_STEPS,
  ],
}
