import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  missingForEnd,
  offerEntry,
  runOf,
  startRun,
  stepsAt,
  stepsCount,
  unitStatesAt,
} from '#domain/jobs/job-run.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'
import { UNIT_ACTIONS } from '#domain/jobs/unit-action.ts'
import { CHANGE_OUT_STEPS, machinePlan, SIGN_ASKS, step } from '../unit/jobs/machine-plan.ts'
import { faultsAt, isSafeToTouch } from './bank-faults.ts'
import { POLE, push, tapThrough, unitsOf, unsafeWays, Watch } from './random-crew.ts'

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

describe('whatever is tapped on the buttons, in whatever order', () => {
  it('no bypass is closed and no unit bridged without proven neutral and a dead drive', () => {
    fc.assert(
      fc.property(plans, pushes, (plan, all) => {
        expect(unsafeWays(startRun(plan), all, new Watch())).toEqual([])
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
