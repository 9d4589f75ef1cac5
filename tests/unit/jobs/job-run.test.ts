import { describe, expect, it } from 'vitest'
import type { JobEntry, StepDone } from '#domain/jobs/job-entry.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import {
  type JobRun,
  missingForEnd,
  nextPlace,
  offerEntry,
  runOf,
  startRun,
  stepsAt,
  stepsCount,
  unitStatesAt,
} from '#domain/jobs/job-run.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import type { UnitAction } from '#domain/jobs/unit-action.ts'
import { IN_SERVICE, UNDER_BYPASS } from '#domain/jobs/unit-state.ts'
import {
  AT_NEUTRAL,
  CHANGE_OUT_STEPS,
  done,
  machinePlan,
  rightValues,
  SIGN_ASKS,
  step,
  workUntil,
} from './machine-plan.ts'

const start = startRun(machinePlan())

function whyNot(run: JobRun, entry: JobEntry): string {
  const offer = offerEntry(run, entry)
  return offer.ok ? '' : offer.why.join(' ')
}

function offered(run: JobRun, entry: JobEntry): JobRun {
  const offer = offerEntry(run, entry)
  if (!offer.ok) throw new Error(offer.why.join(' '))
  return offer.run
}

const runWith = (...steps: readonly Step[]) => startRun(machinePlan(steps))

describe('the steps at a pole', () => {
  it('go in their order, and one for each unit at each unit', () => {
    const places = stepsAt(start, 'P2')
    expect(
      places.slice(0, 5).map(({ step: { id }, phase }) => `${id} ${phase ?? ''}`.trim()),
    ).toEqual(['briefing', 'photo', 'run-to-neutral A', 'run-to-neutral B', 'run-to-neutral C'])
    expect(stepsCount(start)).toEqual({ done: 0, leftOut: 0, all: 2 + 3 * 21 })
  })

  it('wait for all before them', () => {
    expect(nextPlace(start, 'P2')?.step.id).toBe('briefing')
    const why = whyNot(start, done('e', 'photo'))
    expect(why).toBe('Not yet: “Do briefing” comes before it.')
  })

  it('are next at every unit at once, in any order of units', () => {
    const run = workUntil(start, 'run-to-neutral')
    const next = stepsAt(run, 'P2').filter(({ status }) => status === 'next')
    expect(next.map(({ phase }) => phase)).toEqual(['A', 'B', 'C'])
    const cFirst = offered(run, done('e', 'run-to-neutral', { phase: 'C' }))
    expect(nextPlace(cFirst, 'P2')?.phase).toBe('A')
    expect(whyNot(cFirst, done('f', 'prove-before', { phase: 'C' }))).toContain('Not yet')
  })

  it('are not done twice', () => {
    const run = workUntil(start, 'run-to-neutral', 'B')
    expect(whyNot(run, done('again', 'run-to-neutral', { phase: 'A' }))).toContain(
      'is done already',
    )
  })

  it('are none at a pole without a bank where they are for each unit', () => {
    const run = startRun({ ...machinePlan(), bank: undefined })
    expect(stepsAt(run, 'P2').map(({ step: { id } }) => id)).toEqual(['briefing', 'photo'])
    expect(whyNot(run, done('e', 'run-to-neutral', { phase: 'A' }))).toContain('has none')
  })

  it('are none at a pole that is not part of the job', () => {
    expect(stepsAt(start, 'P9')).toEqual([])
    expect(nextPlace(start, 'P9')).toBeNull()
    expect(unitStatesAt(start, 'P9')).toEqual({})
  })

  it('follow the phases of the bank', () => {
    const run = startRun(machinePlan(CHANGE_OUT_STEPS, { phases: 'AC' }))
    expect(Object.keys(unitStatesAt(run, 'P2'))).toEqual(['A', 'C'])
  })
})

describe('an entry', () => {
  it('is taken once: the same id a second time is refused', () => {
    const remark: JobEntry = {
      kind: 'remark',
      id: 'r',
      at: '2031-05-06T14:00:00Z',
      pole: 'P2',
      text: 'Gate locked',
    }
    const run = offered(start, remark)
    expect(whyNot(run, remark)).toContain('already')
    expect(runOf(run.plan, [remark, remark]).refused.map(({ id }) => id)).toEqual(['r'])
  })

  it('about a pole or a step that the job does not have is refused', () => {
    expect(whyNot(start, done('e', 'briefing', { pole: 'P9' }))).toContain('not part of this job')
    expect(whyNot(start, done('e', 'dance'))).toContain('no step dance')
  })

  it('names the unit where a step is done at each, and none where it is done once', () => {
    expect(whyNot(start, done('e', 'run-to-neutral'))).toContain('say which of A, B, C')
    expect(whyNot(start, done('e', 'briefing', { phase: 'A' }))).toContain('done once at the pole')
  })

  it('that is a remark, a deviation or a photo never waits', () => {
    const common = { at: '2031-05-06T14:00:00Z', pole: 'P2' }
    const { run, refused } = runOf(start.plan, [
      { ...common, kind: 'remark', id: '1', text: 'Gate locked' },
      { ...common, kind: 'deviation', id: '2', text: 'Old arm kept' },
      { ...common, kind: 'photo', id: '3', attachmentId: 'f1', what: 'Nameplate' },
    ])
    expect(refused).toEqual([])
    expect(run.entries).toHaveLength(3)
    expect(stepsAt(run, 'P2')).toEqual(stepsAt(start, 'P2'))
  })

  it('that is refused leaves the run as it was', () => {
    const before = JSON.stringify([...start.poles])
    expect(offerEntry(start, done('e', 'photo')).ok).toBe(false)
    expect(JSON.stringify([...start.poles])).toBe(before)
  })
})

describe('a step', () => {
  const twoSign = step('two', { signedBy: 'two of the crew' })

  it('of two of the crew takes two different names', () => {
    const run = runWith(twoSign)
    for (const signedBy of [['Ada Field'], ['Ada Field', ' ada  field ']]) {
      expect(whyNot(run, done('e', 'two', { signedBy }))).toContain('two different names')
    }
    expect(whyNot(run, done('e', 'two', { signedBy: ['Ada Field', 'Ben Hill'] }))).toBe('')
  })

  it('is left out only where it may be, and two of the crew sign that too', () => {
    const leave = (stepId: string, signedBy = ['Ada Field']): JobEntry => ({
      kind: 'step left out',
      id: 'e',
      at: '2031-05-06T14:00:00Z',
      pole: 'P2',
      stepId,
      why: 'none there',
      signedBy,
    })
    const run = runWith(step('may', { mayBeLeftOut: true }), step('never'))
    expect(whyNot(run, leave('may'))).toBe('')
    expect(stepsAt(offered(run, leave('may')), 'P2')[0]?.status).toBe('left out')
    expect(whyNot(runWith(step('never')), leave('never'))).toContain('may not be left out')
    const hold = runWith(step('hold', { isHoldPoint: true, mayBeLeftOut: true }))
    expect(whyNot(hold, leave('hold'))).toContain('hold point is never left out')
    const both = runWith({ ...twoSign, mayBeLeftOut: true })
    expect(whyNot(both, leave('two'))).toContain('two different names')
  })

  it('needs what it asks for, in the form that it asks for', () => {
    const run = runWith(
      step('ask', {
        asks: [
          { id: 'n', what: 'Counter', kind: 'number', unit: '', isNeeded: true },
          { id: 'c', what: 'Lamp', kind: 'choice', options: ['on', 'off'], isNeeded: false },
          { id: 't', what: 'Maker', kind: 'text', isNeeded: true },
        ],
      }),
    )
    const offer = (values: StepDone['values']) => whyNot(run, done('e', 'ask', { values }))
    expect(offer({})).toBe('“Counter” is needed. “Maker” is needed.')
    expect(offer({ n: 'ten', t: ' ' })).toBe('“Counter” takes a number. “Maker” is needed.')
    expect(offer({ n: 1, t: 'x', c: 'blue' })).toBe('“Lamp” takes one of its choices.')
    expect(offer({ n: 1, t: 'x', other: 1 })).toBe('This step does not ask for other.')
    expect(offer({ n: 1, t: 'x', c: 'on' })).toBe('')
  })

  it('with a doubtful reading passes with a remark, and not without', () => {
    const torque = step('torque', {
      isHoldPoint: true,
      asks: [
        {
          id: 't',
          what: 'Torque',
          kind: 'number',
          unit: 'lb-ft',
          isNeeded: true,
          judge: 'torque of shear-head fasteners',
        },
      ],
    })
    const entry = done('e', 'torque', { values: { t: 40 } })
    expect(whyNot(runWith(torque), entry)).toContain('only with a remark')
    expect(whyNot(runWith(torque), { ...entry, remark: ' ' })).toContain('only with a remark')
    expect(whyNot(runWith(torque), { ...entry, remark: 'Marked 40' })).toBe('')
  })

  it('that holds is not passed with a bad reading, whatever is remarked', () => {
    const why = whyNot(start, done('e', 'briefing', { values: { ok: false }, remark: 'later' }))
    expect(why).toContain('must be yes')
  })

  it('that does not hold passes with a bad reading and a remark', () => {
    const soft = step('soft', {
      asks: [
        { id: 'y', what: 'Gate shut', kind: 'yes or no', isNeeded: true, judge: 'must be yes' },
      ],
    })
    const entry = done('e', 'soft', { values: { y: false } })
    expect(whyNot(runWith(soft), entry)).toContain('only with a remark')
    expect(whyNot(runWith(soft), { ...entry, remark: 'No gate' })).toBe('')
  })

  it('that works a switch or a drive is not done while the crew says that it went wrong', () => {
    const run = runWith(
      step('to-neutral', {
        action: 'run to neutral',
        each: 'unit',
        asks: [
          { id: 'y', what: 'Stopped', kind: 'yes or no', isNeeded: true, judge: 'must be yes' },
        ],
      }),
    )
    const entry = done('e', 'to-neutral', { phase: 'A', remark: 'Ran past' })
    expect(whyNot(run, { ...entry, values: { y: false } })).toBe('“Stopped” must be yes.')
    expect(whyNot(run, { ...entry, values: { y: true } })).toBe('')
  })

  it('that looks for neutral is not passed with a sign against it, hold point or not', () => {
    const look = step('look', {
      asks: [
        {
          id: 'i',
          what: 'Indicator',
          kind: 'number',
          unit: '',
          isNeeded: true,
          judge: 'position indicator at neutral',
        },
      ],
    })
    const entry = done('e', 'look', { values: { i: 3 }, remark: 'later' })
    expect(whyNot(runWith(look), entry)).toContain('does not stand at neutral')
  })
})

describe('the bypass', () => {
  const bypassOnly = [step('bypass', { action: 'close the bypass', each: 'unit' })]

  it('stays open off neutral, and the volts and amperes of closing it are said', () => {
    const why = whyNot(runWith(...bypassOnly), done('e', 'bypass', { phase: 'B' }))
    expect(why).toContain('Unit B: Neutral is not proven')
    // 45 V of one step at 7200 V into 0.05 ohm, by Ohm's law.
    expect(why).toContain('45.0 V across it and about 900 A through a loop of 0.05 ohm')
  })

  it('stays open where making the drive inoperative was left out: what is left out is not done', () => {
    const order = [
      step('run', { action: 'run to neutral' }),
      step('drive', { action: 'make the tap drive inoperative', mayBeLeftOut: true }),
      ...bypassOnly,
    ]
    const run = offered(startRun(machinePlan(order, { phases: 'A' })), done('r', 'run'))
    const before = unitStatesAt(run, 'P2')
    const after = offered(run, {
      kind: 'step left out',
      id: 'd',
      at: '2031-05-06T14:00:00Z',
      pole: 'P2',
      stepId: 'drive',
      why: 'no key',
      signedBy: ['Ada Field'],
    })
    expect(unitStatesAt(after, 'P2')).toEqual(before)
    expect(whyNot(after, done('b', 'bypass', { phase: 'A' }))).toContain('make it inoperative')
  })

  it('of a gang of units closes only when each of them is proven', () => {
    const gang = step('gang', { action: 'close the bypass' })
    const why = whyNot(runWith(gang), done('e', 'gang'))
    for (const unit of ['Unit A', 'Unit B', 'Unit C']) expect(why).toContain(unit)
  })

  it('stays open where one reading would have to prove three units', () => {
    const once = step('once', { action: 'prove neutral', asks: [...SIGN_ASKS] })
    const made = done('e', 'once', { values: { ...AT_NEUTRAL } })
    const ready = step('ready', { action: 'run to neutral' })
    const three = offered(runWith(ready, once), done('r', 'ready'))
    expect(whyNot(three, made)).toContain('one reading proves no bank')
    const one = startRun(machinePlan([ready, once], { phases: 'B' }))
    expect(whyNot(offered(one, done('r', 'ready')), made)).toBe('')
  })

  it('stays open after a proof whose signs disagree', () => {
    const run = workUntil(start, 'prove-before')
    const values = { ...AT_NEUTRAL, across: 45 }
    const why = whyNot(run, done('e', 'prove-before', { phase: 'A', values }))
    expect(why).toContain('1 step of 45 V off neutral')
    expect(why).toContain('Signs that disagree prove nothing')
  })

  it('is closed at one unit at a time as each is proven', () => {
    const run = workUntil(start, 'close-the-bypass', 'B')
    const states = unitStatesAt(run, 'P2')
    expect(states.A?.isBypassClosed).toBe(true)
    expect(states.B?.isBypassClosed).toBe(false)
  })
})

describe('the end of the work', () => {
  it('is reached by a whole change-out, with every unit back in service', () => {
    const end = workUntil(start)
    expect(missingForEnd(end)).toEqual([])
    expect(nextPlace(end, 'P2')).toBeNull()
    expect(stepsCount(end).done).toBe(stepsCount(end).all)
    expect(unitStatesAt(end, 'P2').C).toMatchObject({
      isBypassClosed: false,
      isDriveOperative: true,
    })
  })

  it('is not reached with a step open, and a hold point is named as one', () => {
    const missing = missingForEnd(start)
    expect(missing[0]).toBe('Pole P2: “Do briefing” is open, a hold point.')
    expect(missing).toContain('Pole P2: “Do prove-before” at unit B is open, a hold point.')
  })

  it('is not reached with grounds, jumper or a dead drive left behind', () => {
    const until = (last: string) =>
      CHANGE_OUT_STEPS.slice(0, CHANGE_OUT_STEPS.findIndex(({ id }) => id === last) + 1)
    const left = (last: string) => missingForEnd(workUntil(startRun(machinePlan(until(last)))))
    expect(left('test-dead-and-ground')).toContain('Pole P2, unit A: grounds are still on.')
    expect(left('close-the-bypass')).toContain(
      'Pole P2, unit A: it is in service with its bypass closed.',
    )
    expect(left('open-the-load-switch')).toContain(
      'Pole P2, unit A: only one of source and load switch is closed.',
    )
    expect(left('open-the-bypass')).toEqual(
      ['A', 'B', 'C'].map(
        (unit) => `Pole P2, unit ${unit}: it is in service and its tap drive is not restored.`,
      ),
    )
    expect(left('take-the-unit-down')).toContain('Pole P2, unit A: it does not carry the line.')
  })
})

describe('a plan', () => {
  it('that names a pole twice is a mistake of the program', () => {
    const { poles, ...rest } = machinePlan()
    expect(() => startRun({ ...rest, poles: [...poles, ...poles] })).toThrow('each pole once')
  })
})

/** As plans were frozen before orders and banks said how a bank stands and what its neutral side is. */
describe('a plan from before', () => {
  const act = (action: UnitAction, id: string = action) =>
    step(id.replaceAll(' ', '-'), { action, each: 'unit' })
  const neutralSide = (stands: 'open' | 'closed') =>
    step(`neutral-side-${stands}`, {
      each: 'unit',
      asks: [
        {
          ...{ id: 'neutral-side', what: 'Neutral-side switch', kind: 'choice', isNeeded: true },
          options: [`fully ${stands}`, 'none fitted: SL is solidly on the neutral'],
        },
      ],
    })
  const proof = (id: string) =>
    step(id, { action: 'prove neutral', each: 'unit', asks: [...SIGN_ASKS] })
  const OUT = [
    act('run to neutral'),
    proof('proof'),
    act('make the tap drive inoperative'),
    act('close the bypass'),
    act('open the load switch'),
    act('open the source switch'),
    neutralSide('open'),
  ]
  const BACK = [
    neutralSide('closed'),
    act('close the source switch'),
    act('restore the tap drive'),
    act('run to neutral', 'again'),
    proof('proof-again'),
    act('make the tap drive inoperative', 'drive-again'),
    act('close the load switch'),
    act('open the bypass'),
    act('restore the tap drive', 'automatic'),
  ]

  /** Every entry right, the choice as the unit was. */
  function worked(kind: JobKind, steps: readonly Step[]): JobRun {
    let run = startRun(machinePlan(steps, { kind, phases: 'A' }))
    for (let place = nextPlace(run, 'P2'); place; place = nextPlace(run, 'P2')) {
      const asked = place.step.asks[0]
      const values =
        asked?.kind === 'choice' ? { [asked.id]: asked.options[1]! } : rightValues(place.step)
      const entry = done(`e${run.entries.length}`, place.step.id, {
        ...{ phase: 'A', values, remark: 'Read from bushing to bushing.' },
      })
      run = offered(run, entry)
    }
    return run
  }

  it('begins with its bank in service, the neutral side solid where no step works its switch', () => {
    const run = startRun(machinePlan(OUT, { kind: 'remove a bank', phases: 'A' }))
    expect(unitStatesAt(run, 'P2').A).toEqual({ ...IN_SERVICE, neutralSide: 'solid' })
  })

  it('takes a bank off the line for its removal, with the way down told in words alone', () => {
    const run = worked('remove a bank', [...OUT, step('take-down', { each: 'unit' })])
    expect(missingForEnd(run)).toEqual([])
    expect(unitStatesAt(run, 'P2').A).toMatchObject({ isUp: true, isBypassClosed: true })
  })

  it.each(['set a bank', 'change out a bank'] as const)(
    'returns units that hang there already, to %s',
    (kind) => {
      const start = startRun(machinePlan(BACK, { kind, phases: 'A' }))
      expect(unitStatesAt(start, 'P2').A).toEqual({ ...UNDER_BYPASS, neutralSide: 'solid' })
      const run = worked(kind, BACK)
      expect(missingForEnd(run)).toEqual([])
      expect(unitStatesAt(run, 'P2').A).toMatchObject({ isLoadClosed: true, isBypassClosed: false })
    },
  )

  it('folds whole, out and back, to a unit in service', () => {
    const run = worked('change out a bank', [...OUT, ...BACK])
    expect(missingForEnd(run)).toEqual([])
    expect(runOf(run.plan, run.entries)).toEqual({ run, refused: [] })
  })
})

describe('a long job', () => {
  it('of 2000 entries folds to the same as one by one', () => {
    const remarks = Array.from(
      { length: 2000 },
      (_, index): JobEntry => ({
        kind: 'remark',
        id: `r${index}`,
        at: '2031-05-06T14:00:00Z',
        pole: 'P2',
        text: 'Seen',
      }),
    )
    const { run, refused } = runOf(start.plan, remarks)
    expect(refused).toEqual([])
    expect(run.entries).toEqual(remarks)
  })
})
