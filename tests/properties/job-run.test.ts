import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { JobEntry, ReadValue, StepDone } from '#domain/jobs/job-entry.ts'
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
import { UNIT_ACTIONS, type UnitAction } from '#domain/jobs/unit-action.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import {
  CHANGE_OUT_STEPS,
  done,
  machinePlan,
  rightValues,
  SIGN_ASKS,
  step,
} from '../unit/jobs/machine-plan.ts'
import { faultsAt, isSafeToTouch } from './bank-faults.ts'

const POLE = 'P2'
const NAMES = ['Ada Field', 'Ben Hill', ' ada  FIELD']

/** One tap on the buttons: mostly what is next and right, else anything. */
interface Push {
  readonly aim: 'next' | 'any step'
  readonly index: number
  readonly phase: Phase | undefined
  readonly kind: 'done' | 'left out' | 'remark'
  /** Put over the right values; `null` takes one away. */
  readonly wrong: Readonly<Record<string, ReadValue | null>>
  readonly signedBy: readonly string[]
  readonly remark: string
  readonly pole: string
  readonly sameId: boolean
}

const NONE = { indicator: null, lamp: null, readout: null, across: null, meter: null }

const readings: fc.Arbitrary<Push['wrong']> = fc.oneof(
  { weight: 5, arbitrary: fc.constant({}) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      NONE,
      { ...NONE, indicator: 0 },
      { ...NONE, lamp: true, readout: 0 },
      { ...NONE, across: 0, meter: 1 },
    ),
  },
  {
    weight: 3,
    arbitrary: fc.record(
      {
        indicator: fc.constantFrom(0, 1, -16, null, 0.5),
        lamp: fc.constantFrom(true, false, null),
        readout: fc.constantFrom(0, 2, null),
        across: fc.constantFrom(0, 20, 45, 720, -45, null),
        meter: fc.constantFrom(1, 22, 45, 1000, null),
        ok: fc.constantFrom(true, false, 'yes', null),
      },
      { requiredKeys: [] },
    ),
  },
)

const push: fc.Arbitrary<Push> = fc.record({
  aim: fc.oneof(
    { weight: 6, arbitrary: fc.constant('next' as const) },
    { weight: 1, arbitrary: fc.constant('any step' as const) },
  ),
  index: fc.nat(40),
  phase: fc.constantFrom(...PHASES, undefined),
  kind: fc.oneof(
    { weight: 8, arbitrary: fc.constant('done' as const) },
    { weight: 1, arbitrary: fc.constant('left out' as const) },
    { weight: 1, arbitrary: fc.constant('remark' as const) },
  ),
  wrong: readings,
  signedBy: fc.oneof(
    { weight: 4, arbitrary: fc.constant(['Ada Field', 'Ben Hill']) },
    { weight: 1, arbitrary: fc.array(fc.constantFrom(...NAMES), { minLength: 1, maxLength: 3 }) },
  ),
  remark: fc.constantFrom('', 'looked again'),
  pole: fc.oneof(
    { weight: 20, arbitrary: fc.constant(POLE) },
    { weight: 1, arbitrary: fc.constant('P9') },
  ),
  sameId: fc.oneof(
    { weight: 20, arbitrary: fc.constant(false) },
    { weight: 1, arbitrary: fc.constant(true) },
  ),
})

function entryOf(run: JobRun, made: Push, number: number): JobEntry {
  const next = nextPlace(run, POLE)
  const places = stepsAt(run, POLE)
  const aimed = made.aim === 'next' && next ? next : places[made.index % places.length]!
  const phase = made.aim === 'next' ? aimed.phase : made.phase
  const id = made.sameId ? 'e0' : `e${number}`
  const common = { id, pole: made.pole, ...(phase && { phase }) }
  const base = done(id, aimed.step.id, { ...common, signedBy: [...made.signedBy] })
  if (made.kind === 'remark') {
    return { kind: 'remark', id, at: base.at, pole: made.pole, text: 'Seen' }
  }
  if (made.kind === 'left out') {
    const { at, stepId, signedBy } = base
    return { kind: 'step left out', ...common, at, stepId, signedBy, why: 'none there' }
  }
  const values = rightValues(aimed.step)
  for (const [key, value] of Object.entries(made.wrong)) {
    if (value === null) delete values[key]
    else if (key in values) values[key] = value
  }
  return { ...base, values, ...(made.remark && { remark: made.remark }) }
}

/** Any order of steps, mad ones among them. */
const anyStep = fc.record({
  action: fc.option(fc.constantFrom(...UNIT_ACTIONS), { nil: undefined }),
  each: fc.constantFrom('once' as const, 'unit' as const),
  isHoldPoint: fc.boolean(),
  mayBeLeftOut: fc.boolean(),
  signedBy: fc.constantFrom('one of the crew' as const, 'two of the crew' as const),
  asksSigns: fc.boolean(),
})
const anySteps = fc.array(anyStep, { minLength: 1, maxLength: 14 }).map((all) =>
  all.map(
    ({ asksSigns, action, ...more }, index): Step => ({
      ...step(`s${index}`, more),
      ...(action && { action }),
      asks: asksSigns || action === 'prove neutral' ? [...SIGN_ASKS] : [],
    }),
  ),
)

/** Actions in their right order, so that random crews get far, with steps put in and left away. */
const nearlyRight = fc
  .array(fc.nat(CHANGE_OUT_STEPS.length - 1), { maxLength: 3 })
  .map((gone) => CHANGE_OUT_STEPS.filter((_, index) => !gone.includes(index)))

const steps = fc.oneof(fc.constant(CHANGE_OUT_STEPS), nearlyRight, anySteps)
const phases = fc.constantFrom('A' as const, 'AC' as const)
const kind = fc.constantFrom(
  'set a bank' as const,
  'change out a bank' as const,
  'remove a bank' as const,
)
const plans = fc
  .record({ steps, phases, kind })
  .map(({ steps: order, ...choices }) => machinePlan(order, choices))
const pushes = fc.array(push, { minLength: 30, maxLength: 90 })

interface Offered {
  readonly before: JobRun
  readonly entry: JobEntry
  readonly after: JobRun | null
}

/** Taps on the buttons one after the other, refused ones too. */
function tapThrough(start: JobRun, all: readonly Push[]): Offered[] {
  let run = start
  return all.flatMap((made, number) => {
    if (stepsAt(run, POLE).length === 0) return []
    const before = run
    const entry = entryOf(run, made, number)
    const offer = offerEntry(run, entry)
    if (offer.ok) run = offer.run
    return [{ before, entry, after: offer.ok ? offer.run : null }]
  })
}

const stepOf = (run: JobRun, { stepId }: StepDone) =>
  stepsAt(run, POLE).find(({ step: { id } }) => id === stepId)?.step

/** What the entries prove, counted here by hand: indicator, control (lamp or readout), volts. */
function signsAgree({ indicator, lamp, readout, across, meter }: StepDone['values']): boolean {
  if ((indicator ?? 0) !== 0 || (lamp ?? true) !== true || (readout ?? 0) !== 0) return false
  if (typeof across === 'number' && Math.abs(across) >= 22.5) return false
  const byControl = lamp !== undefined || readout !== undefined
  const byVolts = across !== undefined && typeof meter === 'number' && meter <= 22.5
  return [indicator !== undefined, byControl, byVolts].filter(Boolean).length >= 2
}

const UNPROVES: readonly UnitAction[] = [
  'run to neutral',
  'tap through raise and lower',
  'restore the tap drive',
  'take the unit down',
  'set the unit',
]

/** Follows proof and drive of each unit from the entries that were taken, apart from the machine. */
class Watch {
  readonly proven = new Map<Phase, boolean>()
  readonly canMove = new Map<Phase, boolean>()

  see(run: JobRun, entry: JobEntry): void {
    if (entry.kind !== 'step done') return
    const action = stepOf(run, entry)?.action
    if (!action) return
    const units = entry.phase ? [entry.phase] : PHASES
    for (const unit of units) {
      if (UNPROVES.includes(action)) this.proven.set(unit, false)
      if (action === 'prove neutral') this.proven.set(unit, signsAgree(entry.values))
      if (action === 'restore the tap drive') this.canMove.set(unit, true)
      if (action === 'make the tap drive inoperative') this.canMove.set(unit, false)
    }
  }

  isSafe(unit: Phase): boolean {
    return this.proven.get(unit) === true && this.canMove.get(unit) === false
  }
}

const unitsOf = (run: JobRun) =>
  PHASES.flatMap((phase) => {
    const state = unitStatesAt(run, POLE)[phase]
    return state ? [{ phase, state }] : []
  })

describe('whatever is tapped on the buttons, in whatever order', () => {
  it('no bypass is closed and no unit bridged without proven neutral and a dead drive', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        const watch = new Watch()
        for (const { before, entry, after } of tapThrough(startRun(plan), all)) {
          if (!after) continue
          for (const { phase, state } of unitsOf(after)) {
            const was = unitStatesAt(before, POLE)[phase]
            const isNowBypassed = state.isBypassClosed && was?.isBypassClosed === false
            if (isNowBypassed && state.isUp) expect(watch.isSafe(phase)).toBe(true)
          }
          watch.see(before, entry)
          for (const { phase, state } of unitsOf(after)) {
            const isInLine = state.isUp && state.isSourceClosed && state.isLoadClosed
            if (isInLine && (state.isBypassClosed || state.isJumperOn)) {
              expect(watch.isSafe(phase)).toBe(true)
            }
          }
        }
      }),
      { numRuns: 300 },
    )
  })

  it('no line is grounded, no winding shorted, no neutral floats and no customer is dropped', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        for (const { after } of tapThrough(startRun(plan), all)) {
          for (const { state } of after ? unitsOf(after) : []) {
            expect(faultsAt(state, state.tap !== 'proven at neutral')).toEqual([])
          }
        }
      }),
      { numRuns: 200 },
    )
  })

  it('no unit is lifted that is not dead and grounded', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        for (const { before, after } of tapThrough(startRun(plan), all)) {
          for (const { phase, state } of after ? unitsOf(after) : []) {
            const was = unitStatesAt(before, POLE)[phase]
            if (was && was.isUp !== state.isUp) expect(isSafeToTouch(was)).toBe(true)
          }
        }
      }),
      { numRuns: 200 },
    )
  })

  it('no step is passed before a hold point ahead of it, and none out of turn', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        for (const { after } of tapThrough(startRun(plan), all)) {
          if (!after) continue
          const places = stepsAt(after, POLE)
          const firstOpen = places.findIndex(({ status }) => status === 'next')
          const passed = places.filter(({ status }) => status === 'done' || status === 'left out')
          expect(passed.some(({ step: one, status }) => one.isHoldPoint && status !== 'done')).toBe(
            false,
          )
          const beyond = firstOpen < 0 ? [] : places.slice(firstOpen)
          const open = places[firstOpen]?.step
          expect(
            beyond.filter(({ step: one, status }) => one !== open && status !== 'waiting'),
          ).toEqual([])
        }
      }),
      { numRuns: 200 },
    )
  })

  it('the work is not said to be done with a hold point open or a step left', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        for (const { after } of tapThrough(startRun(plan), all)) {
          if (!after || missingForEnd(after).length > 0) continue
          for (const { places } of after.poles.values()) {
            const holds = places.filter(({ step }) => step.isHoldPoint)
            expect(holds.filter(({ status }) => status !== 'done')).toEqual([])
          }
          expect(stepsCount(after).done).toBe(stepsCount(after).all)
          for (const { state } of unitsOf(after)) expect(state.isGrounded).toBe(false)
        }
      }),
      { numRuns: 200 },
    )
  })

  it('each hold point that was passed had every reading that it needs, and none of them bad', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        const run = tapThrough(startRun(plan), all).findLast(({ after }) => after)?.after
        for (const { step: one, entry } of run ? stepsAt(run, POLE) : []) {
          if (!one.isHoldPoint || entry?.kind !== 'step done') continue
          const { values } = entry
          for (const { id, isNeeded } of one.asks) if (isNeeded) expect(values).toHaveProperty(id)
          expect(values.ok ?? true).toBe(true)
          expect([values.indicator ?? 0, values.readout ?? 0, values.lamp ?? true]).toEqual([
            0,
            0,
            true,
          ])
        }
      }),
      { numRuns: 200 },
    )
  })

  it('what is refused changes nothing, and says why in sentences', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        for (const { before, entry } of tapThrough(startRun(plan), all)) {
          const told = JSON.stringify([before.entries, [...before.poles]])
          const offer = offerEntry(before, entry)
          expect(JSON.stringify([before.entries, [...before.poles]])).toBe(told)
          if (offer.ok) continue
          expect(offer.why.length).toBeGreaterThan(0)
          for (const why of offer.why) expect(why).toMatch(/^[A-Z“0-9−-].*[.]$/)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('folding the entries one by one is folding them all, and refused ones might as well not be there', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        const offered = tapThrough(startRun(plan), all)
        const last = offered.findLast(({ after }) => after)?.after ?? startRun(plan)
        const { run, refused } = runOf(
          plan,
          offered.map(({ entry }) => entry),
        )
        expect(run).toEqual(last)
        expect(refused).toHaveLength(offered.filter(({ after }) => !after).length)
        expect(runOf(plan, last.entries)).toEqual({ run: last, refused: [] })
      }),
      { numRuns: 100 },
    )
  })
})

describe('a crew of this test', () => {
  it('gets through a whole change-out now and then, so that its walks mean something', () => {
    const ends = fc
      .sample(fc.array(push, { minLength: 250, maxLength: 250 }), { numRuns: 20, seed: 7 })
      .map((all) => tapThrough(startRun(machinePlan(CHANGE_OUT_STEPS, { phases: 'A' })), all))
      .map((offered) => offered.findLast(({ after }) => after)?.after)
    const finished = ends.filter((run) => run && missingForEnd(run).length === 0)
    expect(finished.length).toBeGreaterThan(5)
  })
})
