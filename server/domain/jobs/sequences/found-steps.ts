import type { StepDraft } from './step-draft.ts'

/** What the crew finds before it changes anything. */
export const FOUND_STEPS: readonly StepDraft[] = [
  {
    id: 'found',
    text: 'Before anything is changed, read the control of this unit and write down what it says.',
    each: 'unit',
    asks: [
      { id: 'tap', what: 'Tap position', kind: 'number', unit: 'steps' },
      { id: 'counter', what: 'Operations counter', kind: 'number', unit: '' },
      {
        id: 'source-volts',
        what: 'Source volts, if the control shows them',
        kind: 'number',
        unit: 'V on 120',
        isNeeded: false,
        judge: 'source volts as expected',
      },
      {
        id: 'load-volts',
        what: 'Load volts',
        kind: 'number',
        unit: 'V on 120',
        judge: 'load volts as expected',
      },
      {
        id: 'amps',
        what: 'Load current',
        kind: 'number',
        unit: 'A',
        judge: 'current as expected',
      },
    ],
  },
]
