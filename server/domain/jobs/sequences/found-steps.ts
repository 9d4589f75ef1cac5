import { CONTROL_READINGS } from './control-readings.ts'
import { COUNTER, type StepDraft, tapAsk } from './step-draft.ts'

/** What the crew finds before it changes anything. */
export const FOUND_STEPS: readonly StepDraft[] = [
  {
    id: 'found',
    text: 'Before anything is changed, read the control of this unit and write down what it says.',
    each: 'unit',
    readsAsFound: true,
    asks: [tapAsk('tap', 'Tap position'), COUNTER, ...CONTROL_READINGS],
  },
]
