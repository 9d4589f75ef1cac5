import { confirm, type StepDraft } from './step-draft.ts'

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
      { id: 'serial', what: 'Serial number', kind: 'text' },
      { id: 'rating', what: 'Rating on the nameplate', kind: 'number', unit: 'kVA' },
      confirm('fits', 'Volts, rating, type and ratio are those of the job'),
      {
        id: 'indicator',
        what: 'Position indicator on the unit',
        kind: 'number',
        unit: 'steps',
        judge: 'position indicator at neutral',
      },
    ],
    signedBy: 'two of the crew',
  },
]

/** What makes a unit fit for the line once it hangs there. Common practice, no source. */
export const FITTING_STEPS: readonly StepDraft[] = [
  {
    id: 'bond-tank',
    text: 'Bond tank and control cabinet to the common neutral and to the pole ground.',
    hazard: 'An unbonded tank can stand at line voltage.',
    isHoldPoint: true,
    each: 'unit',
    asks: [confirm('bonded', 'Tank and cabinet bonded, joints bright and tight')],
  },
  {
    id: 'arresters',
    text: 'Fit the arresters: source, load and across the series winding where the unit has one. Leads short, ground ends on the tank bond.',
    each: 'unit',
    asks: [confirm('fitted', 'Arresters fitted and grounded')],
  },
  {
    id: 'leads',
    text: 'Run source, load and neutral-side leads to their own bushings. Support them, keep them clear of tank, arm and each other, no pull on a bushing.',
    hazard: 'Source and load swapped: the unit tends the wrong way and runs to an end.',
    isHoldPoint: true,
    each: 'unit',
    asks: [confirm('right', 'Source to S, load to L, neutral side to SL: read by a second person')],
    signedBy: 'two of the crew',
  },
  {
    id: 'torque',
    text: 'Tighten the shear-head fasteners. 75 to 85 lb-ft is common practice without a published source; the marking on the connector governs. Say in a remark what it says.',
    each: 'unit',
    asks: [
      {
        id: 'torque',
        what: 'Torque reached',
        kind: 'number',
        unit: 'lb-ft',
        judge: 'torque of shear-head fasteners',
      },
      {
        id: 'marking',
        what: 'Torque marked on the connector',
        kind: 'number',
        unit: 'lb-ft',
        isNeeded: false,
      },
    ],
  },
  {
    id: 'cabinet',
    text: 'Connect the control cabinet. Look at plug, fuses, heater, door seal and lock. Check its communication with the office, where it has one.',
    each: 'unit',
    asks: [
      confirm('connected', 'Cabinet connected and dry'),
      {
        id: 'communication',
        what: 'Communication',
        kind: 'choice',
        options: ['answers', 'does not answer', 'none fitted'],
      },
    ],
  },
]

/** Settings go in before the unit sees load, and are read by a second person. */
export const SETTINGS_STEPS: readonly StepDraft[] = [
  {
    id: 'settings',
    text: 'Enter the settings of the job’s sheet. A second person reads every line back, the potential ratio first.',
    hazard: 'A wrong ratio or centre holds the whole line beyond at wrong voltage.',
    isHoldPoint: true,
    each: 'unit',
    asks: [
      confirm('read-back', 'Every line of the sheet entered and read back'),
      { id: 'other', what: 'What was set otherwise', kind: 'text', isNeeded: false },
    ],
    signedBy: 'two of the crew',
  },
]
