import type { JobAnswer } from '#contract/jobs.ts'
import type { RouteName } from '#contract/routes.ts'
import { Regulator } from '#domain/feeder/equipment.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { JobPlan } from '#domain/jobs/job-plan.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import type { OutboxItem } from '../../../web/api/outbox.ts'

const AT = '2026-11-20T15:00:00.000Z'

/** Two readings around one switch, invented for these tests. */
const SEQUENCE = StepSequence.parse({
  id: 'short',
  name: 'Short order',
  forKinds: ['change settings'],
  source: 'Invented for tests',
  steps: [
    {
      id: 'found',
      text: 'Read the control.',
      each: 'unit',
      asks: [
        { id: 'tap', what: 'Tap position', kind: 'number', unit: 'steps' },
        { id: 'counter', what: 'Operations counter', kind: 'number', unit: '' },
      ],
    },
    { id: 'neutral', text: 'Run to neutral.', each: 'unit', action: 'run to neutral' },
    {
      id: 'left',
      text: 'Read the control again.',
      each: 'unit',
      mayBeLeftOut: true,
      asks: [
        { id: 'tap', what: 'Tap position', kind: 'number', unit: 'steps' },
        { id: 'locked', what: 'Cabinet locked', kind: 'yes or no', isNeeded: false },
      ],
    },
  ],
})

export const REGULATOR = Regulator.parse({
  id: 'R1',
  kind: 'regulator',
  pole: 'P1',
  span: 'S1',
  phases: 'AB',
  windingType: 'B',
  ratingA: 219,
  ptRatio: 60,
  ctPrimaryA: 250,
  bandCentreV: 122,
  bandwidthV: 2,
  rV: 3,
  xV: 5,
})

export const PLAN = JobPlan.parse({
  kind: 'change settings',
  poles: [
    {
      pole: 'P1',
      measures: [{ kind: 'bushing cover', partIds: ['R1-A-source', 'R1-A-load'] }],
      openPairs: 2,
      openPairsAfter: 0,
      sequence: SEQUENCE,
      sequenceVersion: 0,
    },
  ],
  bank: { regulator: REGULATOR, standing: REGULATOR, neutralV: 7200, loopOhm: 0.1 },
  kit: [],
  hazards: [],
  settings: [],
  expected: [],
  mistakes: [],
  notes: [],
})

export function answerOf(part: Partial<JobAnswer> = {}): JobAnswer {
  return {
    job: {
      id: 'J1',
      feederId: 'small',
      feederVersion: 1,
      feederVersionAfter: null,
      origin: { kind: 'by hand', jobKind: 'change settings', poles: ['P1'], regulatorId: 'R1' },
      state: 'issued',
      stateSince: AT,
      reason: '',
      title: 'Settings at P1',
      note: '',
      crew: '',
      plan: PLAN,
      version: 3,
      changedBy: { id: 'someone', role: 'supervisor' },
      changedAt: AT,
      deletedAt: null,
    },
    entries: [],
    asLeft: null,
    ...part,
  }
}

type Done = Extract<JobEntry, { kind: 'step done' }>

export function done(id: string, part: Partial<Done> & Pick<Done, 'stepId'>): Done {
  return {
    id,
    at: AT,
    pole: 'P1',
    kind: 'step done',
    phase: 'A',
    values: {},
    signedBy: ['Robin'],
    ...part,
  }
}

export const found = (id: string, phase: 'A' | 'B', tap = 4) =>
  done(id, { stepId: 'found', phase, values: { tap, counter: 1204 } })

export function item(
  id: string,
  name: RouteName,
  body: unknown,
  part: Partial<OutboxItem> = {},
): OutboxItem {
  return {
    id,
    enteredAt: AT,
    what: id,
    jobId: 'J1',
    name,
    input: { params: { jobId: 'J1' }, body },
    state: 'waiting',
    tries: 0,
    ...part,
  }
}
