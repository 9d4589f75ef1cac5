import { BIRD_STEPS, COVERS_WHILE_DEAD_STEP } from './bird-steps.ts'
import { BOLTED, FITTING_STEPS, SETTINGS_STEPS } from './fitting-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { GROUNDS_OFF_STEP, switchesLockedStep, testDeadStep } from './out-of-service-steps.ts'
import { ENERGIZE_STEPS, TAKE_LOAD_STEPS, TRY_TAPS_STEPS } from './return-steps.ts'
import { confirm, type StepDraft } from './step-draft.ts'

/** The line goes over the jumper while unit, leads and bypass switch are worked on. */
const JUMPER_STEPS: readonly StepDraft[] = [
  {
    id: 'check-jumper',
    text: 'Look the temporary jumper over: rated for line volts and for the load, clamps clean, insulation whole. Read the load current.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      {
        id: 'load',
        what: 'Load current now, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'current as expected',
      },
      {
        id: 'rating',
        what: 'Rating of the jumper',
        kind: 'number',
        unit: 'A',
        judge: 'rating above the current',
      },
      confirm(
        'enough',
        'Rating above the load, with the margin that your rules ask for',
        'Do not hang it up: take a jumper of a higher rating, or come back at less load.',
      ),
    ],
  },
  {
    id: 'install-jumper',
    text: 'Bypass closed, unit off the line: clamp the jumper from the source-side to the load-side conductor of the same phase.',
    hazard:
      'Between two phases, or across a unit off neutral, it is a short circuit. Trace the phase by hand and eye.',
    isHoldPoint: true,
    each: 'unit',
    action: 'install the jumper',
    asks: [
      confirm(
        'same-phase',
        'Both clamps tight, on the same phase: seen by a second person',
        'Open nothing: put it right as your rules for energized parts ask, or call in.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'jumper-carries',
    text: 'With the bypass still closed, measure the current in the jumper. The bypass stays closed until the jumper carries its share.',
    hazard: 'If the jumper does not carry, opening the bypass breaks the load current.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      {
        id: 'shared',
        what: 'Current in the jumper beside the bypass, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'carries a share of the current',
      },
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'bypass-to-jumper',
    text: 'Open the bypass. The line goes over the jumper alone. Measure its current again.',
    hazard:
      'The switch must be rated for what it opens. From here on the jumper alone feeds all beyond.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the bypass',
    asks: [
      {
        id: 'amps',
        what: 'Current in the jumper now',
        kind: 'number',
        unit: 'A',
        judge: 'carries the current',
      },
      confirm(
        'carries',
        'Bypass fully open; the jumper carries the line',
        'Stand clear, touch neither jumper nor switch, and call in: customers beyond may be out.',
      ),
    ],
    signedBy: 'two of the crew',
  },
]

const OLD_FOR_NEW_STEPS: readonly StepDraft[] = [
  {
    id: 'take-down',
    text: 'Unlead the old unit at its bushings, sling it, unbolt it and bring it down. The grounds stay on the leads. Nobody stands under it.',
    hazard:
      'Weight: see the nameplate. The jumper above is alive: keep boom, winch line and unit outside the approach distance.',
    isHoldPoint: true,
    each: 'unit',
    action: 'take the unit down',
    asks: [
      {
        id: 'serial',
        what: 'Serial number of the old unit',
        kind: 'text',
        judge: 'serial number of one unit',
      },
      confirm(
        'down',
        'On the ground, no leak',
        'Keep people and drains away from the oil, and report it as your rules ask.',
      ),
    ],
  },
  {
    id: 'set-unit',
    text: 'Lift the new unit with rated slings, set it on the hanger or platform, and bolt it.',
    hazard: 'The jumper above is alive.',
    isHoldPoint: true,
    each: 'unit',
    action: 'set the unit',
    asks: [BOLTED],
  },
]

const BACK_TO_BYPASS_STEPS: readonly StepDraft[] = [
  {
    id: 'bypass-again',
    text: 'Load switch open, neutral proven, drive without power: take the tag off the bypass, where it has one, and close it beside the jumper.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the bypass',
    asks: [
      confirm(
        'closed',
        'Fully closed; no arc',
        'Leave the jumper on, stand back, work no other switch, and call in.',
      ),
    ],
  },
  {
    id: 'bypass-carries',
    text: 'With the jumper still on, prove that the closed bypass joins both sides: it carries current, and no volts stand across it.',
    hazard: 'A jumper taken off an open path breaks the load current in your hands.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      {
        id: 'amps',
        what: 'Current in the bypass beside the jumper, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'carries a share of the current',
      },
      {
        id: 'across',
        what: 'Volts across the closed bypass, by a meter on sticks that is rated for line volts',
        kind: 'number',
        unit: 'V',
        judge: 'volts across at neutral',
      },
      confirm(
        'joined',
        'Both sides proven connected through the bypass',
        'Leave the jumper on: without it the load current would break in your hands. Call in.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'jumper-off',
    text: 'Take the jumper off, and its tag. The line goes over the bypass alone. Measure its current.',
    hazard: 'Both clamps are alive until the last one is off: keep the free end under control.',
    isHoldPoint: true,
    each: 'unit',
    action: 'remove the jumper',
    asks: [
      {
        id: 'amps',
        what: 'Current in the bypass now, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'carries the current',
      },
    ],
    signedBy: 'two of the crew',
  },
]

/** From units off the line under closed bypasses to new ones in service. */
export const SWAP_STEPS: readonly StepDraft[] = [
  ...JUMPER_STEPS,
  switchesLockedStep('jumper'),
  testDeadStep('jumper'),
  ...OLD_FOR_NEW_STEPS,
  ...FITTING_STEPS,
  COVERS_WHILE_DEAD_STEP,
  GROUNDS_OFF_STEP,
  ...ENERGIZE_STEPS,
  ...SETTINGS_STEPS,
  ...TRY_TAPS_STEPS,
  ...BACK_TO_BYPASS_STEPS,
  ...TAKE_LOAD_STEPS,
  ...AFTER_STEPS,
  ...AS_LEFT_STEPS,
  ...BIRD_STEPS,
  ...CLEAN_UP_STEPS,
]
