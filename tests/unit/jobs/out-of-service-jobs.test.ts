import { describe, expect, it } from 'vitest'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { asBuilt } from '#domain/jobs/as-built.ts'
import { draftPlan, type PlanInput } from '#domain/jobs/draft-plan.ts'
import { expectedInCases } from '#domain/jobs/expected-readings.ts'
import { feederWithBank } from '#domain/jobs/feeder-with-bank.ts'
import { JOB_KINDS, type JobKind } from '#domain/jobs/job-kind.ts'
import { JobPlan } from '#domain/jobs/job-plan.ts'
import { missingForEnd, runOf } from '#domain/jobs/job-run.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { traceFeeder } from '#domain/network/trace-feeder.ts'
import { convergedCase, nodesByPole } from '../../../web/state/case-solutions.ts'
import { customersOutside } from '../../../web/state/customers-outside.ts'
import { modelFeeder } from '../../../web/state/feeder-model.ts'
import { bankedFeeder } from '../../support/banked-feeder.ts'
import { readDemoFeeder } from '../../support/demo-feeder.ts'
import { entriesThrough } from '../../support/walk-job.ts'
import { leftAsPlanned } from './sample-plan.ts'

const skillet = await readDemoFeeder('skillet')
const sequences = SHIPPED_SEQUENCES.map((sequence) => ({ sequence, version: 0 }))

function bankOf({ equipment }: Feeder): Regulator {
  const found = equipment.find((item) => item.kind === 'regulator')
  if (found?.kind !== 'regulator') throw new Error('The feeder has no bank.')
  return found
}

/** The feeder with its bank recorded otherwise. */
function withBank(feeder: Feeder, change: Partial<Regulator>): Feeder {
  return feederWithBank(feeder, { ...bankOf(feeder), ...change }, [])
}

/** On the bank that stands, as it is drafted by hand. */
function planOn(
  feeder: Feeder,
  kind: JobKind,
  change: Partial<Regulator> = {},
  given: Partial<PlanInput> = {},
): JobPlan {
  const standing = bankOf(feeder)
  const { state: _state, ...regulator } = { ...standing, ...change }
  const plan = draftPlan({
    feeder,
    kind,
    poles: [{ pole: standing.pole, measures: 'cheapest' }],
    bank: { regulator, standing, loopOhm: 0.1 },
    sequences,
    poleTops: [],
    on: '2027-09-20',
    ...given,
  })
  return JobPlan.parse(plan)
}

const BYPASSED = { state: 'bypassed' as const }

describe('customers while a bank is bypassed', () => {
  /** The power flow with the bank taken out, counted as on the planner's desk. */
  it.each(['peak', 'spring-night'])('are those of the feeder without it: %s', (wanted) => {
    const loadCase =
      skillet.header.cases.find(({ id }) => id === wanted) ?? skillet.header.cases[0]!
    const { span, id, phases } = bankOf(skillet)
    const without = feederWithBank(skillet, null, [id])
    const solve = (feeder: Feeder) =>
      convergedCase(solveFeeder(feeder, { taps: 'controlled' }), loadCase.id)!
    const outside = (feeder: Feeder) => {
      const { high, low } = customersOutside(modelFeeder(feeder), solve(feeder))
      return high + low
    }
    const found = planOn(skillet, 'take a bank out of service').whileBypassed?.find(
      ({ caseId }) => caseId === loadCase.id,
    )
    expect(found).toMatchObject({
      customersOutside: outside(without),
      customersOutsideInService: outside(skillet),
    })
    const trace = traceFeeder(skillet)
    const feeds = (pole: string): boolean => {
      const index = trace.feedingSpan.get(pole) ?? -1
      const by = trace.spans[index]
      return by !== undefined && (by.span.id === span || feeds(by.nearPole))
    }
    const beyond = [...nodesByPole(solve(without)).values()].filter(({ id: pole }) => feeds(pole))
    const volts = beyond.flatMap((node) =>
      [...phases].flatMap((name) => node.phases[name as 'A']?.volts120 ?? []),
    )
    expect(found?.lowest?.volts120).toBeCloseTo(Math.min(...volts), 3)
  })

  it('are told for work that bypasses and on a bank that is bypassed, and for no other', () => {
    const told = JOB_KINDS.filter(
      (kind) => kind !== 'set a bank' && kind !== 'return a bank to service',
    ).filter((kind) => planOn(bankedFeeder(), kind).whileBypassed !== undefined)
    expect(told).toEqual(['change out a bank', 'remove a bank', 'take a bank out of service'])
    const hangs = withBank(bankedFeeder(), BYPASSED)
    expect(planOn(hangs, 'return a bank to service').whileBypassed).toEqual(
      planOn(bankedFeeder(), 'take a bank out of service').whileBypassed,
    )
  })
})

describe('readings before anything is changed', () => {
  it('are those of the bank as it stands, where other settings are to come', () => {
    const feeder = bankedFeeder()
    const plan = planOn(feeder, 'change settings', { bandCentreV: 125 })
    const standing = bankOf(feeder)
    const { cases } = expectedInCases(feeder, { ...plan.bank!, regulator: standing, standing })
    expect(plan.expectedFound).toEqual(cases)
    expect(plan.expectedFound).not.toEqual(plan.expected)
  })

  it('under a bypass are the same volts on both sides, at neutral', () => {
    const { expected, expectedFound } = planOn(
      withBank(bankedFeeder(), { ...BYPASSED, tapA: 3 }),
      'return a bank to service',
    )
    expect(expectedFound?.map(({ caseId }) => caseId)).toEqual(expected.map(({ caseId }) => caseId))
    for (const { tap, sourceV, loadV, amps } of expectedFound!.flatMap((each) => each.readings)) {
      expect([tap, loadV]).toEqual([0, sourceV])
      expect(amps).toBeGreaterThan(0)
    }
  })

  it('are left out where the bank is to stand as it does', () => {
    for (const kind of ['take a bank out of service', 'remove a bank'] as const) {
      expect(planOn(bankedFeeder(), kind)).not.toHaveProperty('expectedFound')
    }
  })
})

describe('the plan for a bank that is only switched', () => {
  const out = planOn(bankedFeeder(), 'take a bank out of service')
  const back = planOn(
    withBank(bankedFeeder(), { ...BYPASSED, tapB: -2 }),
    'return a bank to service',
  )
  const hazardsOf = ({ hazards }: JobPlan, about: string) =>
    hazards.flatMap((hazard) => (hazard.about === about ? [hazard.what] : [])).join(' ')

  it('takes tags and grounds along, and nothing to lift or phase with', () => {
    const names = (plan: JobPlan) => plan.kit.map(({ what }) => what).join('; ')
    expect(names(out)).toMatch(/Tag for a unit that stays bypassed.*protective grounds/)
    expect(names(back)).toMatch(/protective grounds/)
    expect(names(back)).not.toMatch(/stays bypassed/)
    for (const plan of [out, back]) expect(names(plan)).not.toMatch(/Lifting|Phasing|Torque/)
  })

  it('says what hangs on the pole, and how the units were left', () => {
    expect(hazardsOf(out, 'bypass')).toMatch(/stay on the pole off the line.*Tag the switches/)
    expect(hazardsOf(back, 'bypass')).toMatch(/left: A neutral, B 2 lower, C neutral/)
    for (const plan of [out, back]) {
      expect(hazardsOf(plan, 'backfeed')).toMatch(/volts put on its control/)
      expect(hazardsOf(plan, 'weight')).toBe('')
    }
  })
})

describe('the switch at the neutral side', () => {
  const kitOf = (plan: JobPlan) =>
    plan.kit.filter(({ what }) => /Neutral-side switch|SL terminal/.test(what))
  const stepsOf = ({ poles }: JobPlan) => poles[0]!.sequence.steps

  it('is part of the kit where units get one that had none, and a lead where it is the other way', () => {
    const solid = bankedFeeder()
    const switched = withBank(solid, { neutralSide: 'switched' })
    expect(kitOf(planOn(solid, 'change out a bank'))).toEqual([])
    expect(kitOf(planOn(switched, 'change out a bank'))).toEqual([])
    const fitted = planOn(solid, 'change out a bank', { neutralSide: 'switched' })
    expect(kitOf(fitted)).toMatchObject([{ what: 'Neutral-side switch', count: 3 }])
    const taken = planOn(switched, 'change out a bank', { neutralSide: 'solid' })
    expect(kitOf(taken)).toMatchObject([{ what: 'Lead from SL terminal to neutral', count: 3 }])
  })

  it('is worked by steps only where a bank has one', () => {
    const actions = (feeder: Feeder) =>
      stepsOf(planOn(feeder, 'take a bank out of service')).map(({ action }) => action)
    const switched = withBank(bankedFeeder(), { neutralSide: 'switched' })
    expect(actions(switched)).toContain('open the neutral-side switch')
    expect(actions(bankedFeeder())).not.toContain('open the neutral-side switch')
  })
})

describe('every kind of job on a bank, drafted and run through', () => {
  const kindsAt = (standing: 'in service' | 'bypassed'): JobKind[] =>
    standing === 'bypassed'
      ? ['change out a bank', 'remove a bank', 'return a bank to service']
      : ['change out a bank', 'remove a bank', 'take a bank out of service', 'change settings']
  const sides = ['solid', 'switched'] as const
  const rows = (['in service', 'bypassed'] as const).flatMap((state) =>
    kindsAt(state).flatMap((kind) =>
      sides.flatMap((neutralSide) =>
        (kind === 'change out a bank' ? sides : [neutralSide]).map((later) => ({
          ...{ kind, state, neutralSide, later },
        })),
      ),
    ),
  )

  it.each(rows)(
    '$kind, $state, $neutralSide, then $later',
    ({ kind, state, neutralSide, later }) => {
      const plan = planOn(withBank(bankedFeeder(), { state, neutralSide }), kind, {
        neutralSide: later,
      })
      expect(missingForEnd(runOf(plan, entriesThrough(plan)).run)).toEqual([])
    },
  )
})

describe('a bank that was taken out of service and returned', () => {
  const before = withBank(bankedFeeder(), {
    ...{ tapA: 5, tapB: 4, tapC: 6, name: 'Mill bank', neutralSide: 'switched' as const },
    ...{ serialA: 'OLD-A', serialB: 'OLD-B' },
  })
  const unitsAt = (taps: readonly number[]) =>
    (['A', 'B', 'C'] as const).map((phase, index) => ({
      ...{ phase, serialNumber: '', nameplate: '', tapLeft: taps[index]! },
    }))
  const outPlan = planOn(before, 'take a bank out of service')
  const out = asBuilt(
    before,
    outPlan,
    leftAsPlanned(outPlan, { units: unitsAt([0, 0, 0]), settings: undefined }),
  )
  const backPlan = planOn(out.feeder, 'return a bank to service', { bandCentreV: 123 })
  const back = asBuilt(out.feeder, backPlan, leftAsPlanned(backPlan, { units: unitsAt([5, 4, 6]) }))
  const voltsOf = (feeder: Feeder) =>
    solveFeeder(feeder, { taps: 'fixed' }).map((solution) => {
      if (solution.status !== 'converged') throw new Error('Expected a solution.')
      return solution.nodes
        .filter(({ id, poleId }) => id === poleId)
        .map(({ id, phases }) => [id, phases])
    })

  it('hangs there bypassed at neutral, and the line is as without it', () => {
    expect(bankOf(out.feeder)).toEqual({
      ...bankOf(before),
      ...{ state: 'bypassed', tapA: 0, tapB: 0, tapC: 0 },
    })
    expect(voltsOf(out.feeder)).toEqual(voltsOf(feederWithBank(before, null, ['R3'])))
    expect(Regulator.parse(bankOf(out.feeder))).toEqual(bankOf(out.feeder))
  })

  it('says who is outside the limits meanwhile, and misses no settings', () => {
    expect(out.notes).toEqual([
      expect.stringMatching(
        /^With the bank bypassed \d+ customers are outside the limits in Peak, before the work \d+\.$/,
      ),
    ])
  })

  it('then has the volts that it had, with the settings that were given at its return', () => {
    expect(voltsOf(back.feeder)).toEqual(voltsOf(before))
    expect(bankOf(back.feeder)).toEqual({ ...bankOf(before), bandCentreV: 123 })
    expect(bankOf(back.feeder)).not.toHaveProperty('state')
  })
})

describe('serial numbers of units', () => {
  const before = withBank(bankedFeeder(), { serialA: 'OLD-A', serialB: 'OLD-B', serialC: 'OLD-C' })
  const serialsAfter = (kind: JobKind) => {
    const plan = planOn(before, kind)
    const units = [
      { phase: 'A' as const, serialNumber: ' NEW-A ', nameplate: '', tapLeft: 0 },
      { phase: 'B' as const, serialNumber: '', nameplate: '', tapLeft: 0 },
    ]
    const { serialA, serialB, serialC } = bankOf(
      asBuilt(before, plan, leftAsPlanned(plan, { units })).feeder,
    )
    return [serialA, serialB, serialC]
  }

  it('are those of the new units after a change-out, and unknown where nobody read them', () => {
    expect(serialsAfter('change out a bank')).toEqual(['NEW-A', undefined, undefined])
  })

  it('stay otherwise, unless one was read', () => {
    expect(serialsAfter('change settings')).toEqual(['NEW-A', 'OLD-B', 'OLD-C'])
    expect(serialsAfter('take a bank out of service')).toEqual(['NEW-A', 'OLD-B', 'OLD-C'])
  })

  it('longer than the record holds are cut, and that is said', () => {
    const plan = planOn(before, 'change settings')
    const units = [{ phase: 'A' as const, serialNumber: 'x'.repeat(70), nameplate: '', tapLeft: 0 }]
    const { feeder, notes } = asBuilt(before, plan, leftAsPlanned(plan, { units }))
    expect(bankOf(feeder).serialA).toBe('x'.repeat(60))
    expect(notes.join()).toMatch(/serial number on phase A is longer than 60 letters/)
    expect(Regulator.parse(bankOf(feeder))).toEqual(bankOf(feeder))
  })
})

describe('a record that changed meanwhile', () => {
  it('keeps a bank bypassed whose settings were changed, and says that it hangs so', () => {
    const plan = planOn(bankedFeeder(), 'change settings', { bandCentreV: 123 })
    const now = withBank(bankedFeeder(), BYPASSED)
    const { feeder, notes } = asBuilt(now, plan, leftAsPlanned(plan))
    expect(bankOf(feeder)).toMatchObject({ state: 'bypassed', bandCentreV: 123 })
    expect(notes.join()).toMatch(/Bank R3 is recorded as bypassed by now and stays so/)
  })
})

describe('plans from before there were such jobs', () => {
  it.each(['change out a bank', 'remove a bank', 'change settings'] as const)(
    'to %s are read, run and closed as they were',
    (kind) => {
      const { expectedFound: _found, whileBypassed: _past, ...older } = planOn(bankedFeeder(), kind)
      const poles = older.poles.map((work) => {
        const { bankAtStart: _start, ...sequence } = work.sequence
        const steps = sequence.steps.map(
          ({ onlyWith: _with, readsAsFound: _reads, ...step }) => step,
        )
        return { ...work, sequence: { ...sequence, steps } }
      })
      const plan = JobPlan.parse(JSON.parse(JSON.stringify({ ...older, poles })))
      expect(missingForEnd(runOf(plan, entriesThrough(plan)).run)).toEqual([])
      const { feeder } = asBuilt(bankedFeeder(), plan, leftAsPlanned(plan))
      expect(feeder.equipment).toHaveLength(kind === 'remove a bank' ? 0 : 1)
    },
  )
})

describe('open pairs that a job leaves', () => {
  const noteOf = (kind: JobKind, measures: PlanInput['poles'][number]['measures']) =>
    planOn(bankedFeeder(), kind, {}, { poles: [{ pole: 'P3', measures }] }).notes.find((note) =>
      /pairs? (stays?|is|are) open|open pairs/.test(note),
    )

  it('are counted, also where only settings change', () => {
    expect(noteOf('change settings', [])).toMatch(/On pole P3 \d+ pairs stay open/)
    expect(noteOf('take a bank out of service', [])).toMatch(/On pole P3 \d+ pairs stay open/)
  })

  it('are named for an inspector to look at, tightest first', () => {
    const { bank: _bank, ...looked } = planOn(bankedFeeder(), 'change settings')
    expect(looked.poles[0]!.openPairs).toBeGreaterThan(6)
    const plan = draftPlan({
      ...{ feeder: bankedFeeder(), kind: 'inspection', sequences, poleTops: [], on: '2027-09-20' },
      poles: [{ pole: 'P3', measures: 'cheapest' }],
    })
    const note = plan.notes.find((each) => each.includes('look at'))
    expect(note).toMatch(
      /^On pole P3 \d+ pairs are open for the design species; look at .+ and \d+ more\.$/,
    )
    const inches = [...note!.matchAll(/\((\d+) in\)/g)].map(([, found]) => Number(found))
    expect(inches).toHaveLength(6)
  })
})
