import { FITTING_STEPS, SETTINGS_STEPS } from './fitting-steps.ts'
import { AFTER_STEPS, AS_LEFT_STEPS, BIRD_STEPS, CLEAN_UP_STEPS } from './left-steps.ts'
import { DEAD_STEPS, GROUNDS_OFF_STEP } from './out-of-service-steps.ts'
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
      { id: 'rating', what: 'Rating of the jumper', kind: 'number', unit: 'A' },
      { id: 'load', what: 'Load current now', kind: 'number', unit: 'A' },
      confirm('enough', 'Rating above the load, with the margin that your rules ask for'),
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
    asks: [confirm('same-phase', 'Both clamps tight, on the same phase: seen by a second person')],
    signedBy: 'two of the crew',
  },
  {
    id: 'bypass-to-jumper',
    text: 'Open the bypass. The line goes over the jumper alone. Measure its current.',
    hazard: 'If the jumper does not carry, opening the bypass breaks the load current.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the bypass',
    asks: [
      {
        id: 'shared',
        what: 'Current in the jumper before the bypass opens',
        kind: 'number',
        unit: 'A',
      },
      { id: 'amps', what: 'Current in the jumper now', kind: 'number', unit: 'A' },
      confirm('carries', 'The jumper carries the line'),
    ],
    signedBy: 'two of the crew',
  },
]

const OLD_FOR_NEW_STEPS: readonly StepDraft[] = [
  {
    id: 'take-down',
    text: 'Unlead the old unit, sling it, unbolt it and bring it down. Nobody stands under it.',
    hazard:
      'Weight: see the nameplate. The jumper above is alive: keep boom, winch line and unit outside the approach distance.',
    isHoldPoint: true,
    each: 'unit',
    action: 'take the unit down',
    asks: [
      { id: 'serial', what: 'Serial number of the old unit', kind: 'text' },
      confirm('down', 'On the ground, no leak'),
    ],
  },
  {
    id: 'set-unit',
    text: 'Lift the new unit with rated slings, set it on the hanger or platform, and bolt it.',
    hazard: 'The jumper above is alive.',
    isHoldPoint: true,
    each: 'unit',
    action: 'set the unit',
    asks: [confirm('bolted', 'Seated, bolted, winch line off')],
  },
]

const BACK_TO_BYPASS_STEPS: readonly StepDraft[] = [
  {
    id: 'bypass-again',
    text: 'Load switch open, neutral proven, drive without power: close the bypass beside the jumper.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the bypass',
    asks: [confirm('closed', 'Fully closed; no arc')],
  },
  {
    id: 'jumper-off',
    text: 'Prove that the closed bypass joins both sides: it carries current, and no volts stand across it. Then take the jumper off.',
    hazard: 'A jumper taken off an open path breaks the load current in your hands.',
    isHoldPoint: true,
    each: 'unit',
    action: 'remove the jumper',
    asks: [
      { id: 'amps', what: 'Current in the bypass beside the jumper', kind: 'number', unit: 'A' },
      {
        id: 'across',
        what: 'Volts across the closed bypass',
        kind: 'number',
        unit: 'V',
        judge: 'volts across at neutral',
      },
      confirm('joined', 'Both sides proven connected through the bypass'),
    ],
    signedBy: 'two of the crew',
  },
]

/** From units off the line under closed bypasses to new ones in service. */
export const SWAP_STEPS: readonly StepDraft[] = [
  ...JUMPER_STEPS,
  ...DEAD_STEPS,
  ...OLD_FOR_NEW_STEPS,
  ...FITTING_STEPS,
  ...SETTINGS_STEPS,
  GROUNDS_OFF_STEP,
  ...ENERGIZE_STEPS,
  ...TRY_TAPS_STEPS,
  ...BACK_TO_BYPASS_STEPS,
  ...TAKE_LOAD_STEPS,
  ...AFTER_STEPS,
  ...AS_LEFT_STEPS,
  ...BIRD_STEPS,
  ...CLEAN_UP_STEPS,
]
