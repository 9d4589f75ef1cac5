import { REGULATOR_MAX_TAP } from '../../feeder/equipment.ts'
import { NEUTRAL_SIDE_JOINED_STEPS } from './neutral-side-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { type AskDraft, confirm, type StepDraft } from './step-draft.ts'

const STEPS_TAPPED = { kind: 'number', unit: 'steps', least: 1, most: REGULATOR_MAX_TAP } as const

/** What is seen of a unit that is tapped under load, and of its first time in automatic. */
export const WATCHED: readonly AskDraft[] = [
  confirm(
    'follows',
    'Tap and volts followed both ways',
    'Leave it in manual, tap no more, and call in: drive, leads or polarity may be wrong.',
  ),
  confirm(
    'automatic',
    'In automatic, and settled inside its band',
    'Set it to manual at once: it may run to an end. Look at ratio and settings, or call in.',
  ),
]

/** A unit off the line comes under voltage from its source side alone; its control has power then. */
export const ENERGIZE_STEPS: readonly StepDraft[] = [
  ...NEUTRAL_SIDE_JOINED_STEPS,
  {
    id: 'clear-to-energize',
    text: 'Before the first switch is closed, look over every unit, its leads and the line: no grounds, no tools, nobody in reach.',
    hazard: 'A ground that is forgotten is a short circuit of the line.',
    isHoldPoint: true,
    asks: [
      confirm(
        'clear',
        'No grounds and no tools on units, leads or line; everybody clear',
        'Close nothing: take off what is left, count the grounds, and look again.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'close-source',
    text: 'Take lock and tag off the source-side switch and close it; the load side stays open. Listen. Who closes the load side first stops here: the supervisor sets the order so, and the job is drafted anew.',
    hazard: 'A unit that has been opened or moved may fail when it is energized: stand clear.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the source switch',
    asks: [
      confirm(
        'quiet',
        'Blade fully closed; only the usual hum',
        'Stand clear: the unit or the blade may be failing. Call in before anything else is worked.',
      ),
    ],
  },
  {
    id: 'give-drive-power',
    text: 'The other line switch still stands open: give the tap drive its power, control in manual.',
    each: 'unit',
    action: 'restore the tap drive',
    asks: [
      confirm(
        'restored',
        'Drive has power, control in manual, the other line switch open',
        'Close no other switch: without its control the unit cannot be proven at neutral. Call in.',
      ),
    ],
  },
]

/**
 * Energized from its source side, a unit is tapped and proven at neutral. Watching the tap before
 * load goes through is common practice, no source.
 */
export const TRY_TAPS_STEPS: readonly StepDraft[] = [
  {
    id: 'tap-through',
    text: 'With the other line switch still open, read the volts at neutral. Tap in manual: a few steps up, back to neutral, a few down. Volts follow by about 0.75 on the 120 base for each step.',
    hazard: 'Never tap with bypass, source and load switch all closed.',
    isHoldPoint: true,
    each: 'unit',
    action: 'tap through raise and lower',
    asks: [
      {
        id: 'at-neutral',
        what: 'Volts at neutral',
        kind: 'number',
        unit: 'V on 120',
        judge: 'source volts as expected',
      },
      { ...STEPS_TAPPED, id: 'steps-up', what: 'Steps raised from neutral' },
      {
        id: 'up',
        what: 'Volts at the top of them',
        kind: 'number',
        unit: 'V on 120',
        judge: 'volts rise with raises',
      },
      { ...STEPS_TAPPED, id: 'steps-down', what: 'Steps lowered from neutral' },
      {
        id: 'down',
        what: 'Volts at the bottom of them',
        kind: 'number',
        unit: 'V on 120',
        judge: 'volts fall with lowers',
      },
      confirm(
        'follows',
        'Raise raises, lower lowers, indicator and readout agree',
        'Close no other switch: leads, polarity or drive are wrong. Call in.',
      ),
    ],
  },
  ...neutralSteps('-again'),
]

/** With the bypass closed and neutral proven, load goes through: NAVFAC MO-201, 3.3.8, reversed. */
export const TAKE_LOAD_STEPS: readonly StepDraft[] = [
  {
    id: 'close-load',
    text: 'Take lock and tag off the load-side switch and close it.',
    hazard: 'Bypass, source and load are all closed now: nobody touches the control.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the load switch',
    asks: [
      confirm(
        'closed',
        'Blade fully closed; no arc, no unusual hum',
        'Stand back, work no switch and no control, and call in: the unit may be off neutral.',
      ),
      {
        id: 'across',
        what: 'Volts across the bypass, by a meter on sticks that is rated for line volts',
        kind: 'number',
        unit: 'V',
        isNeeded: false,
        judge: 'volts across at neutral',
      },
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'open-bypass',
    text: 'Take the tag off the bypass, where it has one, and open it. The load goes through the unit now.',
    hazard: 'The switch must be rated for what it opens.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the bypass',
    asks: [
      confirm(
        'open',
        'Blade fully open; the unit carries the load',
        'Stand clear and call in: where the unit does not carry, customers beyond are out or an arc stands.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'restore-drive',
    text: 'Take the tags off, close the supply of the motor, and leave the control in manual.',
    each: 'unit',
    action: 'restore the tap drive',
    asks: [
      confirm(
        'restored',
        'Supply restored, tags off',
        'Without its drive the unit holds no volts: find out why, and call in.',
      ),
    ],
  },
  {
    id: 'watch-taps',
    text: 'Under load, raise one step and lower one step in manual. Then set the control to automatic and watch its first operations.',
    hazard: 'If the tap runs on toward an end, set it to manual at once and look for a mistake.',
    isHoldPoint: true,
    each: 'unit',
    action: 'tap through raise and lower',
    asks: [...WATCHED],
  },
]
