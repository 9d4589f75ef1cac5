import { confirm, neutralSide, type StepDraft } from './step-draft.ts'

/**
 * From neutral to a unit off the line: bypass, the two line switches, then the neutral-side switch
 * (NAVFAC MO-201, 3.3.8). Which line switch goes first varies by utility. A wye unit usually has its
 * SL terminal solidly on the neutral, so that switch has no action here: who fits it sets one.
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
    text: 'Open the load-side switch. Where your procedure opens the source side first, follow it, enter both steps in this order afterwards, and say so in a remark.',
    hazard: 'The switch must be rated for what it opens.',
    each: 'unit',
    action: 'open the load switch',
    asks: [confirm('open', 'Blade fully open')],
  },
  {
    id: 'open-source',
    text: 'Open the source-side switch.',
    each: 'unit',
    action: 'open the source switch',
    asks: [confirm('open', 'Blade fully open')],
  },
  {
    id: 'open-neutral-side',
    text: 'Open the switch of the neutral-side (SL) terminal, where one is fitted.',
    hazard:
      'In a delta bank this terminal stands at another phase: treat its switch as line potential.',
    each: 'unit',
    asks: [neutralSide('open')],
  },
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
