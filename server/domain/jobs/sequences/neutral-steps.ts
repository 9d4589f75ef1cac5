import { confirm, type StepDraft, tapAsk } from './step-draft.ts'

/**
 * To neutral, proven, and the tap drive made inoperative. That neutral and the supply of the drive
 * come before the bypass: NAVFAC MO-201, 3.3.8. The four signs: common practice, no source.
 *
 * @param again marks the ids where a sequence holds these steps twice
 */
export function neutralSteps(again: '' | '-again' = ''): StepDraft[] {
  return [
    {
      id: `run-to-neutral${again}`,
      text: 'Set the control to manual. Run the unit to neutral step by step, and watch the position indicator come to zero.',
      hazard:
        'A unit that runs past neutral or does not stop is faulty: leave the switches as they are and call in.',
      each: 'unit',
      action: 'run to neutral',
      asks: [
        confirm(
          'stopped',
          'Stopped at neutral by itself',
          'The unit is faulty: tap no more, leave the switches as they are, and call in.',
        ),
      ],
    },
    {
      id: `prove-neutral${again}`,
      text: 'Prove neutral by at least two signs that do not depend on each other. All that are read must agree.',
      hazard:
        'A bypass closed off neutral shorts part of the winding: thousands of amperes may flow. One step off is not safe. S and L are at line volts: reach them by sticks alone.',
      isHoldPoint: true,
      each: 'unit',
      action: 'prove neutral',
      asks: SIGNS,
      signedBy: 'two of the crew',
    },
    {
      id: `drive-inoperative${again}`,
      text: 'Make the tap drive inoperative: control off, supply of the motor opened, both tagged.',
      hazard: 'A drive that still has power can leave neutral while the bypass is closed.',
      isHoldPoint: true,
      each: 'unit',
      action: 'make the tap drive inoperative',
      asks: [
        confirm(
          'isolated',
          'Motor supply opened and tagged',
          'The drive can still move: close no bypass, and open its supply first.',
        ),
        confirm(
          'still-neutral',
          'Indicator still at neutral',
          'The unit has moved: close nothing, leave the switches as they are, and call in.',
        ),
      ],
    },
  ]
}

const SIGNS: NonNullable<StepDraft['asks']> = [
  {
    ...tapAsk('indicator', 'Position indicator on the unit'),
    judge: 'position indicator at neutral',
  },
  {
    id: 'lamp',
    what: 'Neutral lamp lit and steady',
    kind: 'yes or no',
    isNeeded: false,
    judge: 'neutral lamp steady',
  },
  {
    ...tapAsk('readout', 'Position on the control’s readout'),
    isNeeded: false,
    judge: 'control readout at neutral',
  },
  {
    id: 'across',
    what: 'Volts from the S to the L bushing of the unit itself, by a meter on sticks that is rated for line volts',
    kind: 'number',
    unit: 'V',
    isNeeded: false,
    judge: 'volts across at neutral',
  },
  {
    id: 'resolution',
    what: 'Finest reading of this meter',
    kind: 'number',
    unit: 'V',
    isNeeded: false,
    judge: 'resolution of the meter',
  },
]
