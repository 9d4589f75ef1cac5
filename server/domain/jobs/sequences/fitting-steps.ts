import { confirm, type StepDraft, tapAsk } from './step-draft.ts'

/** Before the truck leaves the ground: is this the unit of the job? */
export const NEW_UNIT_STEPS: readonly StepDraft[] = [
  {
    id: 'nameplate',
    text: 'On the ground, compare the nameplate of the new unit with the job: volts, kVA, amperes, type, ratio taps. Look for leaks and chipped bushings. The tap stands at neutral.',
    hazard:
      'A unit of the other type or for other volts gives wrong voltage to every customer beyond.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      {
        id: 'serial',
        what: 'Serial number',
        kind: 'text',
        judge: 'serial number of one unit',
      },
      { id: 'rating', what: 'Rating on the nameplate', kind: 'number', unit: 'kVA', least: 1 },
      confirm(
        'fits',
        'Volts, rating, type and ratio are those of the job',
        'Leave this unit on the ground: it is not the one of the job. Call in.',
      ),
      {
        ...tapAsk('indicator', 'Position indicator on the unit'),
        judge: 'position indicator at neutral',
      },
    ],
    signedBy: 'two of the crew',
  },
]

export const BOLTED = confirm(
  'bolted',
  'Seated, bolted, winch line off',
  'Keep the winch line on and everybody out from under it until it is.',
)

/** What makes a unit fit for the line once it hangs there. Common practice, no source. */
export const FITTING_STEPS: readonly StepDraft[] = [
  {
    id: 'bond-tank',
    text: 'Bond tank and control cabinet to the common neutral and to the pole ground.',
    hazard: 'An unbonded tank can stand at line voltage.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'bonded',
        'Tank and cabinet bonded, joints bright and tight',
        'Without its bond the tank can stand at line voltage: bond it before the grounds come off.',
      ),
    ],
  },
  {
    id: 'arresters',
    text: 'Fit the arresters: source, load and across the series winding where the unit has one. Leads short, ground ends on the tank bond.',
    each: 'unit',
    asks: [
      confirm(
        'fitted',
        'Arresters fitted and grounded',
        'A surge would go through the unit: fit them before it comes under voltage.',
      ),
    ],
  },
  {
    id: 'leads',
    text: 'Run source, load and neutral-side leads to their own bushings. Support them, keep them clear of tank, arm and each other, no pull on a bushing.',
    hazard: 'Source and load swapped: the unit tends the wrong way and runs to an end.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'right',
        'Source to S, load to L, neutral side to SL: read by a second person',
        'Change the leads over now, while the unit is grounded, and read them again.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'torque',
    text: 'Tighten the shear-head fasteners. 75 to 85 lb-ft is common practice without a published source; the marking on the connector governs. A shear head parts by itself.',
    each: 'unit',
    asks: [
      {
        id: 'marking',
        what: 'Torque marked on the connector',
        kind: 'number',
        unit: 'lb-ft',
        isNeeded: false,
        judge: 'torque marked on the connector',
      },
      {
        id: 'torque',
        what: 'Torque reached',
        kind: 'number',
        unit: 'lb-ft',
        judge: 'torque of shear-head fasteners',
      },
      confirm(
        'sheared',
        'Every head sheared off by itself',
        'The joint is not tight, or the head was broken off: tighten it on, or fit a new connector.',
      ),
    ],
  },
  {
    id: 'cabinet',
    text: 'Connect the control cabinet. Look at plug, fuses, heater, door seal and lock. Check its communication with the office, where it has one.',
    hazard:
      'A supply of its own at the control feeds back through the unit up to line voltage: only with its voltage side parted from the unit.',
    each: 'unit',
    asks: [
      confirm(
        'connected',
        'Cabinet connected and dry',
        'The unit cannot be tapped or proven at neutral without it: do not energize it.',
      ),
      {
        id: 'communication',
        what: 'Communication',
        kind: 'choice',
        options: ['answers', 'does not answer', 'none fitted'],
      },
    ],
  },
]

/**
 * Settings go in before the unit sees load, and are read by a second person. Of a unit that was dead
 * they wait until it is energized from one side: a supply brought to the control would feed it.
 */
export const SETTINGS_STEPS: readonly StepDraft[] = [
  {
    id: 'settings',
    text: 'Enter the settings of the job’s sheet. A second person reads every line back, the potential ratio first.',
    hazard: 'A wrong ratio or centre holds the whole line beyond at wrong voltage.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm(
        'read-back',
        'Every line of the sheet entered and read back',
        'With a wrong line it goes no further: set it right, or call in where the control does not take it.',
      ),
      { id: 'other', what: 'What was set otherwise', kind: 'text', isNeeded: false },
    ],
    signedBy: 'two of the crew',
  },
]
