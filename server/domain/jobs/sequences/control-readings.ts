import type { AskDraft } from './step-draft.ts'

/** What the control of a unit in service shows, held against what the job expects. */
export const CONTROL_READINGS: readonly AskDraft[] = [
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
  { id: 'amps', what: 'Load current', kind: 'number', unit: 'A', judge: 'current as expected' },
]
