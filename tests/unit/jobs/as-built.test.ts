import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import { solveFeeder } from '#domain/electrical/solve-feeder.ts'
import { Protection } from '#domain/feeder/birds.ts'
import { Regulator } from '#domain/feeder/equipment.ts'
import { Feeder } from '#domain/feeder/feeder.ts'
import { asBuilt } from '#domain/jobs/as-built.ts'
import { openPairs } from '#domain/jobs/open-pairs.ts'
import { checkFeeder } from '#domain/network/check-feeder.ts'
import { SAMPLE_BANK, sampleFeeder } from './sample-bank.ts'
import { feederWithSampleBank, leftAsPlanned, samplePlan } from './sample-plan.ts'

function bankOf(feeder: Feeder): Regulator | undefined {
  return feeder.equipment.find((item) => item.kind === 'regulator')
}

describe('a bank that was set', () => {
  const feeder = sampleFeeder()
  const plan = samplePlan('set a bank')
  const left = leftAsPlanned(plan)
  const built = asBuilt(feeder, plan, left)

  it('stands in the feeder with its taps, settings and year, and nothing else has moved', () => {
    const bank = bankOf(built.feeder)!
    expect(Regulator.parse(bank)).toEqual(bank)
    expect(bank).toEqual({
      ...SAMPLE_BANK,
      installedYear: 2027,
      ...{ serialA: 'SN-A', serialB: 'SN-B', serialC: 'SN-C' },
      ...Object.fromEntries(left.units.map(({ phase, tapLeft }) => [`tap${phase}`, tapLeft])),
    })
    expect({ ...built.feeder, equipment: [] }).toEqual({ ...feeder, equipment: [] })
    expect(built.notes).toEqual([])
  })

  it('leaves a feeder without a fault that solves in every case', () => {
    expect(checkFeeder(built.feeder)).toEqual([])
    for (const { status } of solveFeeder(built.feeder, { taps: 'fixed' })) {
      expect(status).toBe('converged')
    }
  })

  it('has the volts at its taps that the plan expected', () => {
    const [solution] = solveFeeder(built.feeder, { taps: 'fixed' })
    if (solution?.status !== 'converged') throw new Error('Expected a solution.')
    const out = solution.nodes.find(({ id }) => id === 'REG-P2:out')!
    for (const { loadVolts120, phase } of plan.expected[0]!.readings) {
      expect(out.phases[phase]!.volts120).toBeCloseTo(loadVolts120, 2)
    }
  })

  it('puts what was done for birds on the pole, which closes what the plan said', () => {
    expect(built.addItems.length).toBeGreaterThan(0)
    const items = built.addItems.map((item, index) =>
      Protection.parse({ ...item, id: `I${index}` }),
    )
    for (const item of items) {
      expect(item).toMatchObject({ state: 'on', on: '2027-09-21', installedBy: 'R. Vale, M. Osei' })
    }
    const site = poleSites(built.feeder, []).find(({ pole }) => pole.id === 'P2')!
    expect(openPairs(site, items, [])).toBe(plan.poles[0]!.openPairsAfter)
  })

  it('keeps what was planned where nothing was recorded, and says so', () => {
    const [a] = left.units
    const bare = { ...left, units: [{ ...a!, tapLeft: undefined }], settings: undefined }
    const { feeder: after, notes } = asBuilt(feeder, plan, bare)
    expect(bankOf(after)).toMatchObject({ bandCentreV: 122, tapA: 0, tapB: 0 })
    expect(notes).toEqual([
      'No unit is recorded on phase B; kept as planned.',
      'No unit is recorded on phase C; kept as planned.',
      'No settings are recorded as left; those of the plan are kept.',
      'The position on phase A is not recorded; 0 is kept.',
    ])
  })

  it('has the smallest rating where units differ', () => {
    const units = left.units.map((unit) =>
      unit.phase === 'B' ? { ...unit, ratingA: 150, ratingKva: 114.3 } : unit,
    )
    const { feeder: after, notes } = asBuilt(feeder, plan, { ...left, units })
    expect(bankOf(after)).toMatchObject({ ratingA: 150, ratingKva: 114.3 })
    expect(notes.join()).toMatch(/The units differ in their rated current; the smallest, 150 A/)
  })

  it('takes over no unit on a phase that the bank has not, and no second one on a phase', () => {
    const onB = samplePlan('set a bank')
    const oneB = {
      ...onB,
      bank: { ...onB.bank!, regulator: { ...onB.bank!.regulator, phases: 'B' as const } },
    }
    const [a, b] = left.units
    const units = [a!, b!, { ...b!, tapLeft: 1 }]
    const { feeder: after, notes } = asBuilt(feeder, oneB, { ...left, units })
    expect(bankOf(after)).toMatchObject({ phases: 'B', tapA: 0, tapB: b!.tapLeft })
    expect(notes).toContain('A unit on phase A is recorded, but bank REG-P2 has none there.')
    expect(notes).toContain('Two units are recorded on phase B; the first one counts.')
  })

  it('says where a position lies beyond the limits', () => {
    const settings = { ...left.settings!, maxRaise: 4 }
    const { notes } = asBuilt(feeder, plan, { ...left, settings })
    expect(notes.join()).toMatch(/beyond the limits of 4 raise and 16 lower/)
  })

  it('is taken over with a ratio that does not fit the line, and the notes say so', () => {
    const settings = { ...left.settings!, ptRatio: 120 }
    const { feeder: after, notes } = asBuilt(feeder, plan, { ...left, settings })
    expect(bankOf(after)?.ptRatio).toBe(120)
    expect(notes).toHaveLength(1)
    expect(notes[0]).toMatch(/^REG-P2: Its pt_ratio is 120; on a line of 12\.47 kV about 60\.0/)
  })

  it('is not taken over where its span is gone', () => {
    const gone = { ...feeder, spans: feeder.spans.map((s) => ({ ...s, id: `${s.id}x` })) }
    const { feeder: after, notes } = asBuilt(gone, plan, left)
    expect(after).toBe(gone)
    expect(notes.join()).toMatch(/bank REG-P2 does not sit at the near end of its span/)
  })

  it('is not taken over where power now reaches its span from the other end', () => {
    const turned = {
      ...feeder,
      header: { ...feeder.header, source: { ...feeder.header.source, pole: 'P4' } },
    }
    const { feeder: after, notes } = asBuilt(turned, plan, left)
    expect(after).toBe(turned)
    expect(notes.join()).toMatch(/The bank is not taken over: .*power reaches that span/)
  })

  it('says where the feeder does not solve with the taps as left', () => {
    const loads = feeder.loads.map((load) => ({
      ...load,
      ...{ kwA: 30_000, constantPower: 1, constantCurrent: 0, constantImpedance: 0 },
    }))
    const { notes } = asBuilt({ ...feeder, loads }, plan, left)
    expect(notes.join()).toMatch(/does not converge in peak/)
  })

  it('replaces itself where the job is closed a second time', () => {
    const again = asBuilt(built.feeder, plan, left)
    expect(again.feeder).toEqual(built.feeder)
    expect(again.notes).toEqual([
      'REG-P2 stands in the feeder already; it is replaced by what was left.',
    ])
  })
})

describe('whatever a crew may have left', () => {
  const feeder = sampleFeeder()
  const plan = samplePlan('set a bank')
  const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined })
  const unit = fc.record({
    phase: fc.constantFrom('A' as const, 'B' as const, 'C' as const),
    ratingKva: maybe(fc.integer({ min: 1, max: 900 })),
    ratingA: maybe(fc.integer({ min: 1, max: 1100 })),
    tapLeft: maybe(fc.integer({ min: -16, max: 16 })),
  })
  const settings = fc.record({
    bandCentreV: fc.integer({ min: 100, max: 140 }),
    bandwidthV: fc.constantFrom(0.5, 2, 10),
    delayS: fc.integer({ min: 0, max: 600 }),
    rV: fc.integer({ min: -24, max: 24 }),
    xV: fc.integer({ min: -24, max: 24 }),
    ptRatio: fc.constantFrom(0.5, 20, 60, 166),
    ctPrimaryA: fc.constantFrom(1, 250),
    maxRaise: fc.integer({ min: 0, max: 16 }),
    maxLower: fc.integer({ min: 0, max: 16 }),
  })

  it('the feeder stays one that can be read, is without a fault and solves', () => {
    fc.assert(
      fc.property(
        fc.array(unit, { maxLength: 3 }),
        maybe(settings),
        fc.constantFrom('A' as const, 'BC' as const, 'ABC' as const),
        (units, set, phases) => {
          const bank = { ...plan.bank!, regulator: { ...plan.bank!.regulator, phases } }
          const left = leftAsPlanned(plan, {
            units: units.map((each) => ({ ...each, serialNumber: '', nameplate: '' })),
            settings: set,
          })
          const { feeder: after, notes } = asBuilt(feeder, { ...plan, bank }, left)
          expect(Feeder.parse(after)).toEqual(after)
          const found = checkFeeder(after)
          expect(found.filter(({ severity }) => severity === 'error')).toEqual([])
          for (const { what } of found) expect(notes.join()).toContain(what)
          for (const { status } of solveFeeder(after, { taps: 'fixed' })) {
            expect(status).toBe('converged')
          }
          expect(bankOf(after)).toMatchObject(set ?? {})
          expect(notes.join()).not.toMatch(/undefined|NaN/)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('a bank that was changed', () => {
  const feeder = feederWithSampleBank()

  it('has new units and is as old as they are', () => {
    const plan = samplePlan('change out a bank', feeder)
    const left = leftAsPlanned(plan)
    const units = left.units.map((unit) => ({ ...unit, ratingA: 328, ratingKva: 250 }))
    const { feeder: after } = asBuilt(feeder, plan, { ...left, units })
    expect(after.equipment).toHaveLength(1)
    expect(bankOf(after)).toMatchObject({ ratingA: 328, ratingKva: 250, installedYear: 2027 })
  })

  it('keeps its year where only settings changed', () => {
    const plan = samplePlan('change settings', feeder)
    const left = leftAsPlanned(plan)
    const settings = { ...left.settings!, bandCentreV: 123.5, delayS: 60 }
    const { feeder: after, notes } = asBuilt(feeder, plan, { ...left, settings })
    expect(bankOf(after)).toMatchObject({ bandCentreV: 123.5, delayS: 60, installedYear: 1999 })
    expect(notes).toEqual([])
    const renamed = { ...feeder, equipment: [{ ...bankOf(feeder)!, name: 'Mill bank' }] }
    expect(bankOf(asBuilt(renamed, plan, left).feeder)).toMatchObject({ name: 'Mill bank' })
  })

  it('is added anew where somebody took it out of the feeder meanwhile', () => {
    const plan = samplePlan('change settings', feeder)
    const { feeder: after, notes } = asBuilt(sampleFeeder(), plan, leftAsPlanned(plan))
    expect(after.equipment).toHaveLength(1)
    expect(notes).toContain('Bank REG-P2 stood in the feeder no more; it is added anew.')
  })

  it('is gone where it was removed, and the feeder solves without it', () => {
    const plan = samplePlan('remove a bank', feeder)
    const { feeder: after, notes } = asBuilt(feeder, plan, leftAsPlanned(plan))
    expect(after.equipment).toEqual([])
    expect(checkFeeder(after)).toEqual([])
    expect(notes).toEqual([
      'Without the bank 40 customers are outside the limits in Peak, as many as before the work.',
    ])
    expect(asBuilt(after, plan, leftAsPlanned(plan)).notes).toEqual([
      'Bank REG-P2 stands in the feeder no more.',
    ])
  })
})

describe('items on the poles of a job', () => {
  const base = { pole: 'P2', kind: 'cover' as const, on: '2020-05-01' }
  const item = (id: string, change: Partial<Protection>): Protection => ({
    ...base,
    id,
    what: 'cover',
    state: 'on',
    measure: 'bushing cover',
    partIds: ['REG-P2-A-s'],
    ...change,
  })
  const withItems = (...protections: Protection[]): Feeder => ({
    ...feederWithSampleBank(),
    protections,
  })

  it('are ended where they are replaced on the same part, failed or planned', () => {
    const feeder = withItems(
      item('failed', { state: 'failed' }),
      item('planned', { state: 'planned' }),
      item('elsewhere', { partIds: ['REG-P2-C-s'], state: 'failed' }),
      item('other pole', { pole: 'P3' }),
      item('gone', { state: 'removed' }),
    )
    const plan = samplePlan('retrofit round', feeder)
    const left = leftAsPlanned(plan, {
      units: [],
      measures: [
        { pole: 'P2', measure: 'bushing cover', partIds: ['REG-P2-A-s'], isDone: true },
        {
          pole: 'P2',
          measure: 'arrester cap',
          partIds: ['REG-P2-A-load-arrester'],
          isDone: false,
          why: 'none on the truck',
        },
      ],
    })
    const { addItems, endItems, feeder: after } = asBuilt(feeder, plan, left)
    expect(endItems).toEqual(['failed', 'planned'])
    expect(addItems.map(({ measure }) => measure)).toEqual(['bushing cover'])
    expect(after).toBe(feeder)
  })

  it('that hung on a bank which goes are ended with it, told by fields or by words', () => {
    const feeder = withItems(
      item('on the bank', {}),
      item('by words', {
        measure: undefined,
        partIds: undefined,
        what: 'bushing covers on regulator, A phase',
      }),
      item('on the line', { measure: 'conductor cover', partIds: ['B-conductor'] }),
    )
    const plan = samplePlan('remove a bank', feeder)
    const { endItems } = asBuilt(feeder, plan, leftAsPlanned(plan, { measures: [] }))
    expect(endItems).toEqual(['on the bank', 'by words'])
  })

  it('that hung on units which were changed out are named where nobody set them again', () => {
    const feeder = withItems(item('old', { what: 'bushing cover, A phase' }))
    const plan = samplePlan('change out a bank', feeder)
    const { endItems, notes } = asBuilt(feeder, plan, leftAsPlanned(plan, { measures: [] }))
    expect(endItems).toEqual([])
    expect(notes.join()).toMatch(/“bushing cover, A phase” on pole P2 sat on the old units/)
    const done = asBuilt(feeder, plan, leftAsPlanned(plan))
    expect(done.endItems).toEqual(['old'])
    expect(done.notes).toEqual([])
  })

  it('are not taken over where they make no sense', () => {
    const plan = samplePlan('retrofit round', withItems())
    const left = leftAsPlanned(plan, {
      measures: [
        { pole: 'P9', measure: 'raised perch', partIds: [], isDone: true },
        { pole: 'P2', measure: 'bushing cover', partIds: [], isDone: true },
        { pole: 'P2', measure: 'bushing cover', partIds: ['no-such-part'], isDone: true },
      ],
    })
    const { addItems, notes } = asBuilt(withItems(), plan, left)
    expect(addItems.every(({ pole }) => pole === 'P2')).toBe(true)
    expect(notes).toEqual([
      'raised perch on pole P9: the job has no such pole; not kept.',
      'bushing cover on pole P2 names no part, so it closes nothing.',
      'bushing cover on pole P2: the drawing has no part no-such-part.',
    ])
  })

  it('say what material they are of and how long an arm became', () => {
    const plan = samplePlan('retrofit round', withItems())
    const left = leftAsPlanned(plan, {
      measures: [
        {
          pole: 'P2',
          measure: 'longer arm',
          partIds: ['arm'],
          dimensionM: 1.42,
          materialClass: 'fibreglass',
          isDone: true,
        },
      ],
    })
    expect(asBuilt(withItems(), plan, left).addItems).toEqual([
      {
        pole: 'P2',
        kind: 'change of the framing',
        what: expect.stringMatching(/^longer arm/),
        state: 'on',
        on: '2027-09-21',
        measure: 'longer arm',
        partIds: ['arm'],
        dimensionM: 1.42,
        materialClass: 'fibreglass',
        installedBy: 'R. Vale, M. Osei',
      },
    ])
  })
})
