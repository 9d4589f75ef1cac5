import { BIRD_STEPS, COVERS_WHILE_DEAD_STEP } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { BOLTED, FITTING_STEPS, NEW_UNIT_STEPS, SETTINGS_STEPS } from './fitting-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { NEUTRAL_SIDE_OPEN_STEP } from './neutral-side-steps.ts'
import {
  GROUNDS_OFF_STEP,
  NO_VOLTAGE,
  switchesLockedStep,
  TESTER_PROVEN,
} from './out-of-service-steps.ts'
import { ENERGIZE_STEPS, TAKE_LOAD_STEPS, TRY_TAPS_STEPS } from './return-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const SET_BANK: SequenceDraft = {
  id: 'set-bank',
  name: 'Setting a bank',
  forKinds: ['set a bank'],
  source:
    'Order of switches: NAVFAC MO-201, 3.3.8, reversed. Checks of the unit, torque and watching the tap before load: common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    ...NEW_UNIT_STEPS,
    {
      id: 'switches-in',
      text: 'Put the bypass and the disconnect switches into the line by your own procedure for cutting in. At the end the bypass is closed and carries the line; source and load switch are open.',
      hazard:
        'Never cut a conductor that carries the line before a path around the cut is closed and proven.',
      isHoldPoint: true,
      each: 'unit',
      asks: [
        {
          id: 'amps',
          what: 'Current in the bypass, by an ammeter on a stick',
          kind: 'number',
          unit: 'A',
          judge: 'carries the current',
        },
        confirm(
          'open',
          'Source and load switch open',
          'What hangs on them is alive: stand clear, and open them before anything else is done.',
        ),
      ],
      signedBy: 'two of the crew',
    },
    NEUTRAL_SIDE_OPEN_STEP,
    switchesLockedStep('bypass'),
    {
      id: 'test-dead',
      text: 'Test the leads that wait for this unit dead, with a tester that is proven before and after. Then ground each of them on the unit side of its open switch, where the ground can stay while the unit is fitted.',
      hazard:
        'The bypass beside them and the line side of each open switch are alive. What is not grounded is not dead.',
      isHoldPoint: true,
      each: 'unit',
      action: 'test dead and ground',
      asks: [
        TESTER_PROVEN,
        NO_VOLTAGE('dead', 'Leads dead'),
        confirm(
          'grounded',
          'Grounds on every lead, on the unit side of the open switches',
          'What is not grounded is not dead: keep off it.',
        ),
      ],
      signedBy: 'two of the crew',
    },
    {
      id: 'set-unit',
      text: 'Lift the unit with rated slings, set it on its hanger or platform, and bolt it. Nobody stands under it.',
      hazard:
        'Weight: see the nameplate. Keep boom, winch line and unit outside the approach distance.',
      isHoldPoint: true,
      each: 'unit',
      action: 'set the unit',
      asks: [BOLTED],
    },
    ...FITTING_STEPS,
    COVERS_WHILE_DEAD_STEP,
    GROUNDS_OFF_STEP,
    ...ENERGIZE_STEPS,
    ...SETTINGS_STEPS,
    ...TRY_TAPS_STEPS,
    ...TAKE_LOAD_STEPS,
    ...AFTER_STEPS,
    ...AS_LEFT_STEPS,
    ...BIRD_STEPS,
    ...CLEAN_UP_STEPS,
  ],
}
