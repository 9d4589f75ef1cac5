import { BIRD_STEPS } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { SETTINGS_STEPS } from './fitting-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { WATCHED } from './return-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const CHANGE_SETTINGS: SequenceDraft = {
  id: 'change-settings',
  name: 'Changing the settings of a bank',
  forKinds: ['change settings'],
  bankAtStart: 'in service',
  source: 'Common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_STEPS,
    {
      id: 'settings-found',
      text: 'Read every setting in this control and compare it with what the job says stands now. Write down what differs.',
      each: 'unit',
      readsAsFound: true,
      asks: [
        {
          id: 'as-recorded',
          what: 'Settings found',
          kind: 'choice',
          options: ['as the job says', 'otherwise'],
        },
        { id: 'otherwise', what: 'What differs', kind: 'text', isNeeded: false },
      ],
    },
    {
      id: 'to-manual',
      text: 'Set the control of this unit to manual, so that no tap moves while settings go in.',
      each: 'unit',
      asks: [
        confirm(
          'manual',
          'Control in manual',
          'The control is faulty: set nothing, leave it as it is, and call in.',
        ),
      ],
    },
    ...SETTINGS_STEPS,
    {
      id: 'watch-taps',
      text: 'Raise one step and lower one step in manual. Then set the control to automatic and watch its first operations.',
      hazard: 'If the tap runs on toward an end, set it to manual at once and look for a mistake.',
      isHoldPoint: true,
      each: 'unit',
      action: 'tap through raise and lower',
      asks: [...WATCHED],
    },
    ...AFTER_STEPS,
    ...AS_LEFT_STEPS,
    ...BIRD_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
