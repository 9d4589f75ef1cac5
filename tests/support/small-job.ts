import type { AsLeft } from '#domain/jobs/as-left.ts'
import { JobEntry } from '#domain/jobs/job-entry.ts'
import { JobPlan } from '#domain/jobs/job-plan.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'

/** Two steps at a pole, the first of them a hold point that asks for a yes. Invented for tests. */
export const LOOK_SEQUENCE = StepSequence.parse({
  id: 'look',
  name: 'Look at the pole',
  forKinds: ['inspection'],
  source: 'Invented for tests.',
  steps: [
    {
      id: 'briefing',
      text: 'Say who does what.',
      isHoldPoint: true,
      asks: [{ id: 'said', what: 'Everybody heard it', kind: 'yes or no', judge: 'must be yes' }],
    },
    { id: 'look', text: 'Look at the pole top.', mayBeLeftOut: true },
  ],
})

/** A look at some poles of the small feeder. */
export function lookPlan(poles: readonly string[] = ['P2', 'P3']): JobPlan {
  return JobPlan.parse({
    kind: 'inspection',
    poles: poles.map((pole) => ({
      pole,
      measures: [],
      openPairs: 2,
      openPairsAfter: 2,
      sequence: LOOK_SEQUENCE,
      sequenceVersion: 0,
    })),
    kit: [{ for: 'tools', what: 'field glasses', count: 1 }],
    hazards: [],
    settings: [],
    expected: [],
    mistakes: [],
    notes: [],
  })
}

/** As a device makes it, in the order of the seconds. */
export function stepDone(id: string, pole: string, stepId: string, second = 0): JobEntry {
  return JobEntry.parse({
    id,
    at: new Date(Date.UTC(2026, 4, 1, 9, 0, second)).toISOString(),
    pole,
    kind: 'step done',
    stepId,
    values: stepId === 'briefing' ? { said: true } : {},
    signedBy: ['K. Lane'],
  })
}

/** What was left after such a look. */
export const LEFT_AFTER_LOOK: AsLeft = {
  on: '2026-05-01',
  crew: ['K. Lane', 'M. Ortiz'],
  units: [],
  measures: [],
  remarks: 'Top of P3 looks sound.',
  signedBy: 'K. Lane',
  signaturePath: '',
}
