import { CONTROL_READINGS } from './control-readings.ts'
import { confirm, type StepDraft } from './step-draft.ts'

/** What is read once the units carry load again. */
export const AFTER_STEPS: readonly StepDraft[] = [
  {
    id: 'after',
    text: 'Read the control of this unit and compare with what the job expects for the load now. What lies outside needs a remark.',
    each: 'unit',
    readsAsFound: false,
    asks: [{ id: 'tap', what: 'Tap position', kind: 'number', unit: 'steps' }, ...CONTROL_READINGS],
  },
]

export const AS_LEFT_STEPS: readonly StepDraft[] = [
  {
    id: 'as-left',
    text: 'Write down how this unit is left: settings read back from the control, counter, control in automatic, door locked.',
    each: 'unit',
    asks: [
      { id: 'counter', what: 'Operations counter', kind: 'number', unit: '' },
      confirm(
        'settings',
        'Settings in the control are those of the sheet, or the remark says which not',
      ),
      confirm('automatic', 'Control in automatic, cabinet locked'),
    ],
  },
]

/** Where nothing at the pole holds the volts beyond any more. */
export const VOLTS_BEYOND_STEP: StepDraft = {
  id: 'volts-after',
  text: 'Have volts read at the next customer beyond, or at the next bank, now that nothing here holds them.',
  asks: [
    { id: 'volts', what: 'Volts beyond', kind: 'number', unit: 'V on 120', isNeeded: false },
    { id: 'where', what: 'Where they were read', kind: 'text', isNeeded: false },
  ],
  mayBeLeftOut: true,
}

/** Bird work of the same visit, then the place and the permits. */
export const BIRD_STEPS: readonly StepDraft[] = [
  {
    id: 'bird-work',
    text: 'Put on the covers and the perch that the job lists for this pole, new leads and bushings first. Look from below that every pair of the list is closed.',
    hazard: 'Covers protect birds from brief contact. They do not insulate people.',
    asks: [confirm('closed', 'Every pair of the list closed')],
    mayBeLeftOut: true,
  },
]

export const CLEAN_UP_STEPS: readonly StepDraft[] = [
  {
    id: 'photos',
    text: 'Take photos of the pole top, the nameplates and the control as they are left.',
    asks: [confirm('taken', 'Photos taken')],
    mayBeLeftOut: true,
  },
  {
    id: 'clean-up',
    text: 'Take down cover-up and signs, count the tools, take every scrap of wire and packing along, close the gates.',
    asks: [confirm('clean', 'Place left clean, gates as they were found')],
  },
  {
    id: 'hand-back',
    text: 'Tell the dispatcher what stands closed and open now, hand back clearances and permits, and have reclosing put back.',
    isHoldPoint: true,
    asks: [confirm('handed-back', 'Dispatcher told, clearances handed back')],
    signedBy: 'person in charge',
  },
]
