import { OPEN_NEUTRAL_SIDE_STEP } from './neutral-side-steps.ts'
import { confirm, type StepDraft } from './step-draft.ts'

const NOT_OPEN = confirm(
  'open',
  'Blade fully open',
  'The unit is still alive: stand clear, work no other switch, and call in.',
)

/**
 * From neutral to a unit off the line: bypass, the two line switches, then the neutral-side switch
 * (NAVFAC MO-201, 3.3.8). Which line switch goes first varies by utility.
 */
export const OFF_THE_LINE_STEPS: readonly StepDraft[] = [
  {
    id: 'close-bypass',
    text: 'Close the bypass with one firm stroke. Stand clear, look away from the blade, then look that it is fully in. Measure its current.',
    hazard: 'Only with neutral proven and the drive without power. An arc or a hum: stand back.',
    isHoldPoint: true,
    each: 'unit',
    action: 'close the bypass',
    asks: [
      confirm(
        'closed',
        'Fully closed; no arc, no unusual hum, current shared',
        'Stand back, work no switch and no control, and call in: the unit may be off neutral.',
      ),
      {
        id: 'amps',
        what: 'Current in the bypass, by an ammeter on a stick',
        kind: 'number',
        unit: 'A',
        judge: 'carries a share of the current',
      },
    ],
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
    asks: [NOT_OPEN],
  },
  {
    id: 'open-source',
    text: 'Open the source-side switch.',
    hazard: 'A blade that is not fully open leaves the unit alive.',
    isHoldPoint: true,
    each: 'unit',
    action: 'open the source switch',
    asks: [NOT_OPEN],
  },
  OPEN_NEUTRAL_SIDE_STEP,
]

/**
 * Open, locked and tagged comes before testing and grounding: order of 29 CFR 1910.269(m), from memory.
 *
 * @param carries what the line goes over meanwhile
 */
export function switchesLockedStep(carries: 'bypass' | 'jumper'): StepDraft {
  return {
    id: 'switches-locked',
    text: `Look that every switch of this unit stands open: source, load, and neutral side where it has one. Lock them open and tag them. Tag the ${carries} too: it carries the line.`,
    hazard: `A switch without lock and tag may be closed on you; where none can be locked, your rules say what is done. Without the ${carries} every customer beyond is out.`,
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'open',
        'Every switch of the unit seen open',
        'The unit is alive: stand clear and call in.',
      ),
      confirm(
        'tagged',
        `Switches locked and tagged, the ${carries} tagged`,
        'Nobody tests or grounds before they are: find locks and tags, or do what your rules ask instead.',
      ),
    ],
    signedBy: 'two of the crew',
  }
}

export const TESTER_PROVEN = confirm(
  'tester',
  'Tester proven before and after',
  'The test says nothing: take it as alive, and test again with a tester that works.',
)

export const NO_VOLTAGE = (id: string, what: string) =>
  confirm(id, what, 'It is alive or fed back: keep off, ground nothing, and find from where.')

/**
 * The grounds stay where they are while the unit is unleaded and lowered, so they are not on it.
 *
 * @param carries what is alive beside the unit
 */
export function testDeadStep(carries: 'bypass' | 'jumper'): StepDraft {
  return {
    id: 'test-dead',
    text: 'Test bushings and leads dead with a tester that is proven before and after. Then ground every lead on the unit side of its open switch, where it can stay when the unit comes off.',
    hazard: `Until it is grounded it counts as energized. The ${carries} beside it is alive, and so is the line side of each open switch. Watch for backfeed through the control’s supply.`,
    isHoldPoint: true,
    each: 'unit',
    action: 'test dead and ground',
    asks: [
      TESTER_PROVEN,
      NO_VOLTAGE('dead', 'All bushings and leads dead'),
      confirm(
        'grounded',
        'Grounds on every lead, on the unit side of the open switches',
        'What is not grounded is not dead: keep off it.',
      ),
    ],
    signedBy: 'two of the crew',
  }
}

export const GROUNDS_OFF_STEP: StepDraft = {
  id: 'grounds-off',
  text: 'Take the grounds off the leads and count them. The switches stay open and locked. Everybody clear.',
  hazard: 'From here on the unit and its leads count as energized.',
  isHoldPoint: true,
  each: 'unit',
  action: 'remove the grounds',
  asks: [
    confirm(
      'off',
      'All grounds off and counted; everybody clear',
      'Close no switch: a ground that is forgotten is a short circuit of the line.',
    ),
  ],
  signedBy: 'two of the crew',
}
