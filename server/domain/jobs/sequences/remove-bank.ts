import { BRIEFING_STEPS } from './briefing-steps.ts'
import { FOUND_STEPS } from './found-steps.ts'
import { BIRD_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { DEAD_STEPS, GROUNDS_OFF_STEP, OFF_THE_LINE_STEPS } from './out-of-service-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const REMOVE_BANK: SequenceDraft = {
  id: 'remove-bank',
  name: 'Removing a bank',
  forKinds: ['remove a bank'],
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8. Signs of neutral and the rest: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...FOUND_STEPS,
    ...neutralSteps(),
    ...OFF_THE_LINE_STEPS,
    ...DEAD_STEPS,
    {
      id: 'take-down',
      text: 'Unlead the unit, sling it, unbolt it and bring it down. Nobody stands under it.',
      hazard:
        'Weight: see the nameplate. The bypass above is alive: keep boom, winch line and unit outside the approach distance.',
      isHoldPoint: true,
      each: 'unit',
      action: 'take the unit down',
      asks: [
        { id: 'serial', what: 'Serial number', kind: 'text' },
        { id: 'counter', what: 'Operations counter', kind: 'number', unit: '', isNeeded: false },
        confirm('down', 'On the ground, no leak'),
      ],
    },
    {
      ...GROUNDS_OFF_STEP,
      text: 'The unit is down: take the grounds off its leads and count them. Source and load switch stand open. Everybody clear.',
      hazard: 'From here on the leads count as energized.',
    },
    {
      id: 'line-through',
      text: 'Leave the line whole by your own procedure: bypass closed and secured, or a conductor spliced through around it. Take leads, arresters and bonds of the bank down.',
      hazard: 'Never open the bypass before the new path around it is closed and proven.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        {
          id: 'path',
          what: 'The line goes through',
          kind: 'choice',
          options: ['the closed bypass', 'a conductor spliced through'],
        },
        { id: 'amps', what: 'Current in it', kind: 'number', unit: 'A' },
      ],
      signedBy: 'two of the crew',
    },
    {
      id: 'volts-after',
      text: 'Have volts read at the next customer beyond, or at the next bank, now that nothing here holds them.',
      asks: [
        { id: 'volts', what: 'Volts beyond', kind: 'number', unit: 'V on 120', isNeeded: false },
        { id: 'where', what: 'Where they were read', kind: 'text', isNeeded: false },
      ],
      mayBeLeftOut: true,
    },
    ...BIRD_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
