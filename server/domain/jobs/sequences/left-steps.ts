import { CONTROL_READINGS } from './control-readings.ts'
import { COUNTER, confirm, type StepDraft, tapAsk } from './step-draft.ts'

/** What is read once the units carry load again. */
export const AFTER_STEPS: readonly StepDraft[] = [
  {
    id: 'after',
    text: 'Read the control of this unit and compare with what the job expects for the load now. What lies outside needs a remark.',
    each: 'unit',
    readsAsFound: false,
    asks: [tapAsk('tap', 'Tap position'), ...CONTROL_READINGS],
  },
]

export const AS_LEFT_STEPS: readonly StepDraft[] = [
  {
    id: 'as-left',
    text: 'Write down how this unit is left: settings read back from the control, counter, control in automatic, door locked.',
    each: 'unit',
    asks: [
      COUNTER,
      confirm(
        'settings',
        'Settings in the control are those of the sheet, or the remark says which not',
      ),
      confirm(
        'automatic',
        'Control in automatic, cabinet locked',
        'In manual nobody holds the volts beyond: find out why it is not, and call in.',
      ),
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

/** The place and the permits. */
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
    asks: [
      confirm(
        'handed-back',
        'Dispatcher told, clearances handed back',
        'Until then reclosing upstream stays held off: stay, and reach the dispatcher.',
      ),
    ],
    signedBy: 'person in charge',
  },
]
