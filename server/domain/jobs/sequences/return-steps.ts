import { NEUTRAL_SIDE_JOINED_STEPS } from './neutral-side-steps.ts'
import { neutralSteps } from './neutral-steps.ts'
import { confirm, type StepDraft } from './step-draft.ts'

/** A unit off the line comes under voltage from its source side alone; its control has power then. */
export const ENERGIZE_STEPS: readonly StepDraft[] = [
  ...NEUTRAL_SIDE_JOINED_STEPS,
  {
    id: 'close-source',
    text: 'Close the source-side switch; the load side stays open. Listen. Who closes the load side first stops here: the supervisor sets the order of steps so, and the job is drafted anew.',
    hazard: 'A unit that has been opened or moved may fail when it is energized: stand clear.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the source switch',
    asks: [confirm('quiet', 'Blade fully closed; only the usual hum')],
  },
  {
    id: 'give-drive-power',
    text: 'The load switch is still open: give the tap drive its power, control in manual.',
    each: 'unit',
    action: 'restore the tap drive',
    asks: [confirm('restored', 'Drive has power, control in manual, load switch open')],
  },
]

/**
 * Energized from its source side, a unit is tapped and proven at neutral. Watching the tap before
 * load goes through is common practice, no source.
 */
export const TRY_TAPS_STEPS: readonly StepDraft[] = [
  {
    id: 'tap-through',
    text: 'With the load switch still open, tap in manual: a few steps up, back through neutral, a few down. Volts follow by about 0.75 on the 120 base for each step.',
    hazard: 'Never tap with bypass, source and load switch all closed.',
    isHoldPoint: true,
    each: 'unit',
    action: 'tap through raise and lower',
    asks: [
      { id: 'up', what: 'Change of volts over the steps up', kind: 'number', unit: 'V on 120' },
      { id: 'down', what: 'Change of volts over the steps down', kind: 'number', unit: 'V on 120' },
      confirm('follows', 'Raise raises, lower lowers, indicator and readout agree'),
    ],
  },
  ...neutralSteps('-again'),
]

/** With the bypass closed and neutral proven, load goes through: NAVFAC MO-201, 3.3.8, reversed. */
export const TAKE_LOAD_STEPS: readonly StepDraft[] = [
  {
    id: 'close-load',
    text: 'Close the load-side switch.',
    hazard: 'Bypass, source and load are all closed now: nobody touches the control.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the load switch',
    asks: [
      confirm('closed', 'Blade fully closed; no arc, no unusual hum'),
      {
        id: 'across',
        what: 'Volts across the bypass',
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
    text: 'Open the bypass. The load goes through the unit now.',
    hazard: 'The switch must be rated for what it opens.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the bypass',
    asks: [confirm('open', 'Blade fully open; the unit carries the load')],
    signedBy: 'two of the crew',
  },
  {
    id: 'restore-drive',
    text: 'Take the tags off, close the supply of the motor, and leave the control in manual.',
    each: 'unit',
    action: 'restore the tap drive',
    asks: [confirm('restored', 'Supply restored, tags off')],
  },
  {
    id: 'watch-taps',
    text: 'Under load, raise one step and lower one step in manual. Then set the control to automatic and watch its first operations.',
    hazard: 'If the tap runs on toward an end, set it to manual at once and look for a mistake.',
    isHoldPoint: true,
    each: 'unit',
    action: 'tap through raise and lower',
    asks: [
      confirm('follows', 'Tap and volts followed both ways'),
      confirm('automatic', 'In automatic, and settled inside its band'),
    ],
  },
]
