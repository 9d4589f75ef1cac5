import fc from 'fast-check'
import type { JobEntry, ReadValue, StepDone } from '#domain/jobs/job-entry.ts'
import { type JobRun, nextPlace, offerEntry, stepsAt, unitStatesAt } from '#domain/jobs/job-run.ts'
import type { UnitAction } from '#domain/jobs/unit-action.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'
import { done, rightValues } from '../unit/jobs/machine-plan.ts'

export const POLE = 'P2'
const NAMES = ['Ada Field', 'Ben Hill', ' ada  FIELD']

/** One tap on the buttons: mostly what is next and right, else anything. */
export interface Push {
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

const NONE = {
  ...{ indicator: null, lamp: null, readout: null },
  ...{ across: null, meter: null, resolution: null },
}

const readings: fc.Arbitrary<Push['wrong']> = fc.oneof(
  { weight: 5, arbitrary: fc.constant({}) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      NONE,
      { ...NONE, indicator: 0 },
      { ...NONE, lamp: true, readout: 0 },
      { ...NONE, across: 0, meter: 1, resolution: 1 },
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
        resolution: fc.constantFrom(1, 22, 45, 1000, null),
        ok: fc.constantFrom(true, false, 'yes', null),
        amps: fc.constantFrom(0, 60, -1, null),
        shared: fc.constantFrom(0, 30, null),
        rating: fc.constantFrom(10, 600, null),
        up: fc.constantFrom(100, 123, null),
        down: fc.constantFrom(110, 130, null),
        sheared: fc.constantFrom(true, false),
      },
      { requiredKeys: [] },
    ),
  },
)

export const push: fc.Arbitrary<Push> = fc.record({
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

export interface Offered {
  readonly before: JobRun
  readonly entry: JobEntry
  readonly after: JobRun | null
}

/** Taps on the buttons one after the other, refused ones too. */
export function tapThrough(start: JobRun, all: readonly Push[]): Offered[] {
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
function signsAgree({ indicator, lamp, readout, across, ...more }: StepDone['values']): boolean {
  const meter = more.meter ?? more.resolution
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
export class Watch {
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

export const unitsOf = (run: JobRun) =>
  PHASES.flatMap((phase) => {
    const state = unitStatesAt(run, POLE)[phase]
    return state ? [{ phase, state }] : []
  })

/** Bypasses closed, and units bridged, whose neutral the watch has not seen proven with a dead drive. */
export function unsafeWays(start: JobRun, all: readonly Push[], watch: Watch): string[] {
  const found: string[] = []
  for (const { before, entry, after } of tapThrough(start, all)) {
    if (!after) continue
    for (const { phase, state } of unitsOf(after)) {
      const was = unitStatesAt(before, POLE)[phase]
      const isNowBypassed = state.isBypassClosed && was?.isBypassClosed === false
      if (isNowBypassed && state.isUp && !watch.isSafe(phase)) found.push(`bypass of ${phase}`)
    }
    watch.see(before, entry)
    for (const { phase, state } of unitsOf(after)) {
      const isInLine = state.isUp && state.isSourceClosed && state.isLoadClosed
      const isBridged = isInLine && (state.isBypassClosed || state.isJumperOn)
      if (isBridged && !watch.isSafe(phase)) found.push(`way past ${phase}`)
    }
  }
  return found
}
