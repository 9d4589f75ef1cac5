import { confirm, type StepDraft } from './step-draft.ts'

/*
 * The switch of the SL terminal is opened after both line switches and closed before them: NAVFAC
 * MO-201, 3.3.8. Most units in wye have none, and their SL terminal is solidly on the neutral.
 */

const SWITCHED = { onlyWith: 'a neutral-side switch', each: 'unit', isHoldPoint: true } as const
const LINE_POTENTIAL =
  'In a delta bank this terminal stands at another phase: treat its switch as line potential.'
const SL_OPEN = 'With SL open under voltage the neutral bushing comes to line voltage.'

const BLADE_OPEN = confirm(
  'open',
  'Blade fully open',
  'The unit is not isolated: stand clear, touch no lead, and call in if it does not open.',
)

export const OPEN_NEUTRAL_SIDE_STEP: StepDraft = {
  ...SWITCHED,
  id: 'open-neutral-side',
  text: 'Source and load switch stand open: open the switch of the neutral-side (SL) terminal.',
  hazard: `${SL_OPEN} ${LINE_POTENTIAL}`,
  action: 'open the neutral-side switch',
  asks: [BLADE_OPEN],
  signedBy: 'two of the crew',
}

/** Of a unit that is not on the line yet. */
export const NEUTRAL_SIDE_OPEN_STEP: StepDraft = {
  ...SWITCHED,
  id: 'neutral-side-open',
  text: 'See that the switch of the neutral-side (SL) terminal of this unit stands open.',
  hazard: LINE_POTENTIAL,
  asks: [BLADE_OPEN],
}

/** Before a unit comes under voltage, its SL terminal is on the neutral, by its switch or solidly. */
export const NEUTRAL_SIDE_JOINED_STEPS: readonly StepDraft[] = [
  {
    ...SWITCHED,
    id: 'close-neutral-side',
    text: 'Source and load switch stand open: take lock and tag off the switch of the neutral-side (SL) terminal, and close it.',
    hazard: `${SL_OPEN} ${LINE_POTENTIAL}`,
    action: 'close the neutral-side switch',
    asks: [
      confirm(
        'closed',
        'Blade fully closed',
        'Keep source and load switch open: without its neutral the unit is not to come under voltage.',
      ),
    ],
    signedBy: 'two of the crew',
  },
  {
    ...SWITCHED,
    id: 'neutral-side-joined',
    text: 'See that the neutral-side (SL) terminal of this unit is joined solidly to the neutral.',
    hazard: SL_OPEN,
    onlyWith: 'no neutral-side switch',
    asks: [
      confirm(
        'joined',
        'SL solidly on the neutral, joint tight',
        'Keep source and load switch open: without its neutral the unit is not to come under voltage.',
      ),
    ],
  },
]
