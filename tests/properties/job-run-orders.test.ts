import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isBankKind } from '#domain/jobs/is-bank-kind.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { type JobRun, missingForEnd, runOf, stepsAt, unitStatesAt } from '#domain/jobs/job-run.ts'
import { leftUnsafe } from '#domain/jobs/left-unsafe.ts'
import { sequenceForBank } from '#domain/jobs/sequence-for-bank.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { startOfUnit, type UnitState } from '#domain/jobs/unit-state.ts'
import { entriesThrough } from '../support/walk-job.ts'
import { planBy } from '../unit/jobs/machine-plan.ts'
import { faultsAt } from './bank-faults.ts'
import { POLE, push, tapThrough, unitsOf, unsafeWays, Watch } from './random-crew.ts'
import { anyTap, driftsFrom, type Place, placesAfter } from './unit-walk.ts'

/*
 * The orders of steps that come with the program: each for its kinds, at banks with and without a
 * neutral-side switch, from how the bank stands at its start.
 */

const CASES = SHIPPED_SEQUENCES.flatMap((sequence) =>
  sequence.forKinds.filter(isBankKind).flatMap((kind) =>
    (['solid', 'switched'] as const).map((neutralSide) => ({
      ...{ sequence, kind, neutralSide },
      name: `${sequence.id}, neutral side ${neutralSide}`,
    })),
  ),
)

/** Every place that a unit can come to along an order, and where it can be at the end. */
function walkAlong(sequence: StepSequence, start: UnitState): { all: Place[]; ends: Place[] } {
  const all: Place[] = []
  let here = withDrifts(anyTap(start))
  for (const { action, mayBeLeftOut } of sequence.steps) {
    all.push(...here)
    if (!action) continue
    const after = here.flatMap((place) => placesAfter(place, action))
    here = withDrifts(mayBeLeftOut ? [...here, ...after] : after)
  }
  return { all: [...all, ...here], ends: here }
}

function withDrifts(places: readonly Place[]): Place[] {
  const found = new Map<string, Place>()
  for (const place of [...places, ...places.flatMap(driftsFrom)]) {
    found.set(JSON.stringify(place), place)
  }
  return [...found.values()]
}

/** How each kind of job leaves a unit, said here once more by hand. */
const ENDS: Partial<Record<JobKind, (state: UnitState) => boolean>> = {
  'set a bank': isInService,
  'change out a bank': isInService,
  'return a bank to service': isInService,
  'change settings': isInService,
  'take a bank out of service': (state) =>
    state.isUp && isOff(state) && state.isBypassClosed && !state.isDriveOperative,
  'remove a bank': (state) => !state.isUp && isOff(state) && state.isBypassClosed,
}

function isInService(state: UnitState): boolean {
  const isThrough = state.isUp && state.isSourceClosed && state.isLoadClosed
  return isThrough && !state.isBypassClosed && !state.isJumperOn && state.isDriveOperative
}

function isOff({ isSourceClosed, isLoadClosed, isGrounded }: UnitState): boolean {
  return !isSourceClosed && !isLoadClosed && !isGrounded
}

describe.each(CASES)('along $name', ({ sequence, kind, neutralSide }) => {
  const steps = sequenceForBank(sequence, { neutralSide })
  const start = startOfUnit(kind, steps, { neutralSide })
  const { all, ends } = walkAlong(steps, start)

  it('no unit comes where a winding is shorted, the line grounded, a neutral open or a customer out', () => {
    expect(all.length).toBeGreaterThan(10)
    expect(
      all.filter(({ state, isOffNeutral }) => faultsAt(state, isOffNeutral).length > 0),
    ).toEqual([])
  })

  it('every way comes to its end, and each end is how the job is to leave a unit', () => {
    expect(ends.length).toBeGreaterThan(0)
    for (const { state } of ends) {
      expect(ENDS[kind]?.(state)).toBe(true)
      expect(leftUnsafe(kind, state, start)).toEqual([])
    }
  })
})

/** A bank of another neutral side than before, among those of the same. */
const PAIRS = CASES.flatMap((made) => {
  if (made.kind !== 'change out a bank') return [{ ...made, standingSide: made.neutralSide }]
  return (['solid', 'switched'] as const).map((standingSide) => ({ ...made, standingSide }))
})

/** How a job stands after each entry of a careful crew; from any of them the random crew goes on. */
const RUNS: readonly (readonly JobRun[])[] = PAIRS.flatMap(({ sequence, kind, ...sides }) =>
  (['A', 'AC'] as const).map((phases) => {
    const { neutralSide, standingSide } = sides
    const plan = planBy(sequence, kind, { neutralSide, standingSide, phases })
    const entries = entriesThrough(plan, 'careful')
    return entries.map((_, index) => runOf(plan, entries.slice(0, index)).run)
  }),
)

const begun = fc
  .record({ job: fc.nat(RUNS.length - 1), far: fc.double({ min: 0, max: 1, noNaN: true }) })
  .map(({ job, far }) => {
    const runs = RUNS[job]!
    return runs[Math.min(runs.length - 1, Math.floor(far * runs.length))]!
  })
const pushes = fc.array(push, { minLength: 20, maxLength: 60 })

function watched(run: JobRun): Watch {
  const watch = new Watch()
  for (const entry of run.entries) watch.see(run, entry)
  return watch
}

const carriesNothing = ({ amps, shared }: Record<string, number>) => amps === 0 || shared === 0

/** What a step is not passed with, said here once more by hand. */
const CONTRADICTIONS: Readonly<Record<string, (values: Record<string, number>) => boolean>> = {
  'close-bypass': carriesNothing,
  'jumper-carries': carriesNothing,
  'bypass-to-jumper': carriesNothing,
  'bypass-carries': carriesNothing,
  'jumper-off': carriesNothing,
  'switches-in': carriesNothing,
  'line-through': carriesNothing,
  'off-the-line': carriesNothing,
  'check-jumper': ({ rating = 0, load = 0 }) => rating <= load,
  'tap-through': ({ 'at-neutral': base = 0, up = 0, down = 0 }) => up <= base || down >= base,
}

describe('whatever a crew taps from anywhere along an order that comes with the program', () => {
  it('no bypass is closed on a unit whose neutral is not proven and whose drive can move', () => {
    fc.assert(
      fc.property(begun, pushes, (start, all) => {
        expect(unsafeWays(start, all, watched(start))).toEqual([])
      }),
      { numRuns: 300 },
    )
  })

  it('no line switch is closed with grounds on or the neutral-side switch open, and nothing faults', () => {
    fc.assert(
      fc.property(begun, pushes, (start, all) => {
        for (const { before, after } of tapThrough(start, all)) {
          for (const { phase, state } of after ? unitsOf(after) : []) {
            const was = unitStatesAt(before, POLE)[phase]!
            const isNowClosed =
              (state.isSourceClosed && !was.isSourceClosed) ||
              (state.isLoadClosed && !was.isLoadClosed)
            if (isNowClosed) {
              expect([was.isGrounded, was.neutralSide === 'open']).toEqual([false, false])
            }
            expect(faultsAt(state, state.tap !== 'proven at neutral')).toEqual([])
          }
        }
      }),
      { numRuns: 300 },
    )
  })

  it('no way of the line is opened after a reading that contradicts it, and no load taken by a unit that taps wrongly', () => {
    let seen = 0
    fc.assert(
      fc.property(begun, pushes, (start, all) => {
        for (const { entry, after } of tapThrough(start, all)) {
          if (!after || entry.kind !== 'step done') continue
          const wrong = CONTRADICTIONS[entry.stepId]
          if (!wrong) continue
          seen += 1
          expect(wrong(entry.values as Record<string, number>)).toBe(false)
        }
      }),
      { numRuns: 300, seed: 5 },
    )
    expect(seen).toBeGreaterThan(50)
  })

  it('the work is not said to be done with a hold point open, or a unit left otherwise than its job says', () => {
    let ended = 0
    fc.assert(
      fc.property(begun, pushes, (start, all) => {
        for (const { after } of tapThrough(start, all)) {
          if (!after || missingForEnd(after).length > 0) continue
          ended += 1
          const holds = stepsAt(after, POLE).filter(({ step }) => step.isHoldPoint)
          expect(holds.filter(({ status }) => status !== 'done')).toEqual([])
          for (const { state } of unitsOf(after)) {
            expect(ENDS[after.plan.kind]?.(state)).toBe(true)
          }
        }
      }),
      { numRuns: 300, seed: 11 },
    )
    expect(ended).toBeGreaterThan(5)
  })
})
