import { CONTROL_READINGS } from './control-readings.ts'
import type { StepDraft } from './step-draft.ts'

/** What the crew finds before it changes anything. */
export const FOUND_STEPS: readonly StepDraft[] = [
  {
    id: 'found',
    text: 'Before anything is changed, read the control of this unit and write down what it says.',
    each: 'unit',
    readsAsFound: true,
    asks: [
      { id: 'tap', what: 'Tap position', kind: 'number', unit: 'steps' },
      { id: 'counter', what: 'Operations counter', kind: 'number', unit: '' },
      ...CONTROL_READINGS,
    ],
  },
]
