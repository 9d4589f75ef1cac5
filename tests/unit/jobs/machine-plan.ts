import type { Regulator } from '#domain/feeder/equipment.ts'
import type { JobEntry, ReadValue, StepDone } from '#domain/jobs/job-entry.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { type JobRun, nextPlace, offerEntry } from '#domain/jobs/job-run.ts'
import { sequenceForBank } from '#domain/jobs/sequence-for-bank.ts'
import { type Asked, type JudgeName, Step, type StepSequence } from '#domain/jobs/step-sequence.ts'
import type { UnitAction } from '#domain/jobs/unit-action.ts'
import type { Phase, PhaseSet } from '#domain/units/phases.ts'
import { SAMPLE_BANK } from './sample-bank.ts'

/** 7200 V to neutral, so that one step is 45 V. */
const NEUTRAL_V = 7200

const ask = (asked: Partial<Asked> & Pick<Asked, 'id' | 'kind'>): Asked =>
  ({ what: asked.id, isNeeded: true, unit: 'V', ...asked }) as Asked

/** Every sign of neutral that there is, and the meter that the volts are read with. */
export const SIGN_ASKS: readonly Asked[] = [
  ask({
    id: 'indicator',
    kind: 'number',
    unit: '',
    judge: 'position indicator at neutral',
    isNeeded: false,
  }),
  ask({ id: 'lamp', kind: 'yes or no', judge: 'neutral lamp steady', isNeeded: false }),
  ask({
    id: 'readout',
    kind: 'number',
    unit: '',
    judge: 'control readout at neutral',
    isNeeded: false,
  }),
  ask({ id: 'across', kind: 'number', judge: 'volts across at neutral', isNeeded: false }),
  ask({ id: 'meter', kind: 'number', judge: 'resolution of the meter', isNeeded: false }),
]

/** Signs as they are at neutral, read with a meter of 1 V. */
export const AT_NEUTRAL: Readonly<Record<string, ReadValue>> = {
  indicator: 0,
  lamp: true,
  readout: 0,
  across: 2,
  meter: 1,
}

export function step(id: string, more: Partial<Step> = {}): Step {
  return Step.parse({ id, text: `Do ${id}`, ...more })
}

const at = (action: UnitAction, more: Partial<Step> = {}): Step =>
  step(action.replaceAll(' ', '-'), { action, each: 'unit', ...more })

const proof = (id: string): Step =>
  step(id, {
    action: 'prove neutral',
    each: 'unit',
    isHoldPoint: true,
    asks: [...SIGN_ASKS],
    signedBy: 'two of the crew',
  })

const again = (one: Step, id: string): Step => ({ ...one, id })

/** A change-out as the trade does it, the line carried by the bypass; an order of the tests' own. */
export const CHANGE_OUT_STEPS: readonly Step[] = [
  step('briefing', {
    isHoldPoint: true,
    asks: [ask({ id: 'ok', kind: 'yes or no', judge: 'must be yes' })],
  }),
  step('photo', { mayBeLeftOut: true }),
  at('run to neutral'),
  proof('prove-before'),
  at('make the tap drive inoperative', { isHoldPoint: true }),
  at('close the bypass', { isHoldPoint: true, signedBy: 'two of the crew' }),
  at('open the load switch'),
  at('open the source switch'),
  at('open the neutral-side switch'),
  at('test dead and ground', { isHoldPoint: true }),
  at('take the unit down'),
  at('set the unit'),
  at('remove the grounds', { isHoldPoint: true }),
  at('close the neutral-side switch'),
  at('close the source switch'),
  at('restore the tap drive'),
  at('tap through raise and lower'),
  again(at('run to neutral'), 'neutral-again'),
  proof('prove-after'),
  again(at('make the tap drive inoperative', { isHoldPoint: true }), 'drive-off-again'),
  at('close the load switch'),
  at('open the bypass'),
  again(at('restore the tap drive'), 'to-automatic'),
]

interface PlanChoices {
  readonly kind?: JobKind
  readonly phases?: PhaseSet
  /** Of the order and of the bank; left out, as orders and banks were kept before they said it. */
  readonly bankAtStart?: StepSequence['bankAtStart']
  readonly neutralSide?: Regulator['neutralSide']
  /** Of the units that stand, where it is another. */
  readonly standingSide?: Regulator['neutralSide']
  readonly more?: Partial<JobPlan>
}

/** A job at pole P2, where a bank of 7200 V stands. */
export function machinePlan(
  steps: readonly Step[] = CHANGE_OUT_STEPS,
  {
    kind = 'change out a bank',
    phases = 'ABC',
    bankAtStart,
    neutralSide,
    standingSide = neutralSide,
    more = {},
  }: PlanChoices = {},
): JobPlan {
  const regulator = { ...SAMPLE_BANK, phases, ...(neutralSide && { neutralSide }) }
  const standing = {
    ...regulator,
    ...(standingSide && { neutralSide: standingSide }),
    ...(bankAtStart === 'bypassed' && { state: bankAtStart }),
  }
  return {
    kind,
    poles: [
      {
        pole: SAMPLE_BANK.pole,
        measures: [],
        openPairs: 0,
        openPairsAfter: 0,
        sequence: {
          ...{ id: 'tests', name: 'Tests', forKinds: [kind], source: '', steps: [...steps] },
          ...(bankAtStart && { bankAtStart }),
        },
        sequenceVersion: 0,
      },
    ],
    bank: {
      regulator,
      ...(kind === 'set a bank' ? {} : { standing }),
      neutralV: NEUTRAL_V,
      loopOhm: 0.05,
    },
    kit: [],
    hazards: [],
    settings: [],
    expected: [],
    mistakes: [],
    notes: [],
    ...more,
  }
}

/** A job by one of the orders of steps, as it is frozen for a bank with or without the switch. */
export function planBy(
  sequence: StepSequence,
  kind: JobKind,
  {
    neutralSide = 'solid',
    standingSide = neutralSide,
    ...more
  }: Omit<PlanChoices, 'kind' | 'bankAtStart'> = {},
): JobPlan {
  const standing = { neutralSide: standingSide }
  const { bankAtStart, steps } = sequenceForBank(sequence, { neutralSide }, standing)
  return machinePlan(steps, { ...more, kind, bankAtStart, neutralSide, standingSide })
}

/** An entry as a careful crew makes it. */
export function done(id: string, stepId: string, more: Partial<StepDone> = {}): StepDone {
  return {
    kind: 'step done',
    id,
    at: '2031-05-06T14:00:00.000Z',
    pole: SAMPLE_BANK.pole,
    stepId,
    values: {},
    signedBy: ['Ada Field', 'Ben Hill'],
    ...more,
  }
}

/** Values that pass every judge of a step. */
export function rightValues({ asks }: Step): Record<string, ReadValue> {
  return Object.fromEntries(
    asks.map((asked) => [asked.id, AT_NEUTRAL[asked.id] ?? rightFor(asked)]),
  )
}

const RIGHT: Partial<Record<JudgeName, number>> = {
  'torque of shear-head fasteners': 80,
  'torque marked on the connector': 80,
  'rating above the current': 600,
  'volts rise with raises': 1.00625,
  'volts fall with lowers': 0.99375,
}

function rightFor(asked: Asked): ReadValue {
  switch (asked.kind) {
    case 'number':
      return (asked.judge && RIGHT[asked.judge]) ?? 1
    case 'yes or no':
      return true
    case 'choice':
      return asked.options[0] ?? ''
    case 'text':
      return 'seen'
  }
}

/** Goes on by the right entry for what is next, until a step (at a unit) is next or nothing is left. */
export function workUntil(run: JobRun, stepId?: string, phase?: Phase): JobRun {
  let going = run
  for (;;) {
    const place = nextPlace(going, SAMPLE_BANK.pole)
    if (!place) return going
    if (place.step.id === stepId && (phase === undefined || place.phase === phase)) return going
    const offer = offerEntry(going, nextEntry(going))
    if (!offer.ok) throw new Error(offer.why.join(' '))
    going = offer.run
  }
}

/** The right entry for what is next. */
export function nextEntry(run: JobRun): JobEntry {
  const place = nextPlace(run, SAMPLE_BANK.pole)
  if (!place) throw new Error('Nothing is next.')
  return done(`e-${run.entries.length}`, place.step.id, {
    ...(place.phase && { phase: place.phase }),
    values: rightValues(place.step),
    // Volts across are a sign beside a closed way past the unit only with a word on where they were read.
    ...(place.step.action === 'prove neutral' && { remark: 'Read from bushing to bushing.' }),
  })
}
