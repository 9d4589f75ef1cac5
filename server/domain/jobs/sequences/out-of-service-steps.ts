import { OPEN_NEUTRAL_SIDE_STEP } from './neutral-side-steps.ts'
import { confirm, type StepDraft } from './step-draft.ts'

/**
 * From neutral to a unit off the line: bypass, the two line switches, then the neutral-side switch
 * (NAVFAC MO-201, 3.3.8). Which line switch goes first varies by utility.
 */
export const OFF_THE_LINE_STEPS: readonly StepDraft[] = [
  {
    id: 'close-bypass',
    text: 'Close the bypass with one firm stroke. Stand clear, look away from the blade, then look that it is fully in.',
    hazard: 'Only with neutral proven and the drive without power. An arc or a hum: stand back.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the bypass',
    asks: [confirm('closed', 'Fully closed; no arc, no unusual hum, current shared')],
    signedBy: 'two of the crew',
  },
  {
    id: 'open-load',
    text: 'Open the load-side switch. Who opens the source side first stops here: the supervisor sets the order of steps so, and the job is drafted anew.',
    hazard:
      'The switch must be rated for what it opens. Where the bypass does not carry, it breaks the load current.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the load switch',
    asks: [confirm('open', 'Blade fully open')],
  },
  {
    id: 'open-source',
    text: 'Open the source-side switch.',
    hazard: 'A blade that is not fully open leaves the unit alive.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the source switch',
    asks: [confirm('open', 'Blade fully open')],
  },
  OPEN_NEUTRAL_SIDE_STEP,
]

export const DEAD_STEPS: readonly StepDraft[] = [
  {
    id: 'test-dead',
    text: 'Test every bushing dead with a tester that is proven before and after. Then ground the unit on all bushings.',
    hazard:
      'Until it is grounded it counts as energized. The bypass or jumper beside it is alive. Watch for backfeed through the control’s supply.',
    isHoldPoint: true,
    each: 'unit',
    action: 'test dead and ground',
    asks: [
      confirm('tester', 'Tester proven before and after'),
      confirm('dead', 'All bushings dead'),
      confirm('grounded', 'Grounds on all bushings'),
    ],
    signedBy: 'two of the crew',
  },
]

export const GROUNDS_OFF_STEP: StepDraft = {
  id: 'grounds-off',
  text: 'Take the grounds off and count them. Source and load switch stand open. Everybody clear.',
  hazard: 'From here on the unit counts as energized.',
  isHoldPoint: true,
  each: 'unit',
  action: 'remove the grounds',
  asks: [confirm('off', 'All grounds off and counted; everybody clear')],
  signedBy: 'two of the crew',
}
