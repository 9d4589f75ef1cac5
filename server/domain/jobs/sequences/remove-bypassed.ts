import { BRIEFING_STEPS } from './briefing-steps.ts'
import { DRIVE_WITHOUT_SUPPLY_STEP, FOUND_BYPASSED_STEPS } from './bypassed-steps.ts'
import { REMOVAL_STEPS } from './removal-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'

export const REMOVE_BYPASSED: SequenceDraft = {
  id: 'remove-bypassed',
  name: 'Removing a bank that hangs bypassed',
  forKinds: ['remove a bank'],
  bankAtStart: 'bypassed',
  source: 'Common practice, no source. The utility’s own procedure governs.',
  steps: [...BRIEFING_STEPS, ...FOUND_BYPASSED_STEPS, DRIVE_WITHOUT_SUPPLY_STEP, ...REMOVAL_STEPS],
}
