import { describe, expect, it } from 'vitest'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { AsLeft } from '#domain/jobs/as-left.ts'
import { stepLeftOutFor } from '#domain/jobs/bird-work-left-out.ts'
import { builtAgainstPlan } from '#domain/jobs/built-against-plan.ts'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { SAMPLE_BANK, sampleFeeder } from './sample-bank.ts'
import { feederWithSampleBank, leftAsPlanned, samplePlan } from './sample-plan.ts'

/** With every step done. */
const deviations = (plan: JobPlan, left: AsLeft) => builtAgainstPlan(plan, left, [])

const plan = samplePlan('set a bank')
const left = leftAsPlanned(plan)
const unitsWith = (change: Partial<AsLeft['units'][number]>) => ({
  ...left,
  units: left.units.map((unit) => (unit.phase === 'A' ? { ...unit, ...change } : unit)),
})

describe('what was built against what was planned', () => {
  it('is nothing where all was left as planned', () => {
    expect(deviations(plan, left)).toEqual([])
  })

  it('names another rating and a serial number that is missing', () => {
    const built = unitsWith({ ratingA: 150, ratingKva: undefined, serialNumber: ' ' })
    expect(deviations(plan, built)).toEqual([
      { what: 'A unit, rating', planned: '167 kVA', built: 'not recorded' },
      { what: 'A unit, rated current', planned: '219 A', built: '150 A' },
      { what: 'A unit, serial number', planned: 'to be recorded', built: 'not recorded' },
    ])
  })

  it('names a position outside all that the power flow expects', () => {
    const taps = plan.expected.map(({ readings }) => readings[0]!.tap)
    const [low, high] = [Math.min(...taps), Math.max(...taps)]
    // A control may rest a step beside, since its band is wider than one.
    for (const tapLeft of [low - 1, low, high, high + 1]) {
      expect(deviations(plan, unitsWith({ tapLeft }))).toEqual([])
    }
    expect(deviations(plan, unitsWith({ tapLeft: high + 2 }))).toHaveLength(1)
    expect(deviations(plan, unitsWith({ tapLeft: -3 }))).toEqual([
      { what: 'A unit, position left', planned: `+${low} to +${high} expected`, built: '−3' },
    ])
    expect(deviations(plan, unitsWith({ tapLeft: undefined }))[0]?.built).toBe('not recorded')
  })

  it('names a unit that is missing, and one that was not planned', () => {
    const built = { ...left, units: left.units.filter(({ phase }) => phase !== 'C') }
    expect(deviations(plan, built)).toEqual([
      { what: 'C unit', planned: 'to be recorded', built: 'not recorded' },
    ])
    const regulator = { ...plan.bank!.regulator, phases: 'AB' as const }
    const smaller = { ...plan, bank: { ...plan.bank!, regulator } }
    expect(deviations(smaller, left)).toEqual([
      { what: 'C unit', planned: 'none', built: 'recorded' },
    ])
  })

  it('names each setting that differs, down to a tenth of a volt', () => {
    const settings = { ...left.settings!, bandCentreV: 122.1, delayS: 30, xV: -3, maxRaise: 8 }
    expect(deviations(plan, { ...left, settings })).toEqual([
      { what: 'Band centre', planned: '122 V', built: '122.1 V' },
      { what: 'Time delay', planned: '45 s', built: '30 s' },
      { what: 'Line-drop compensation X', planned: '0 V', built: '−3 V' },
      { what: 'Limit of raise', planned: '16 steps', built: '8 steps' },
    ])
    expect(deviations(plan, { ...left, settings: undefined })).toEqual([
      { what: 'Settings', planned: 'to be recorded', built: 'not recorded' },
    ])
  })

  it('takes a computed ratio for the same as the one that a control shows', () => {
    const regulator = { ...plan.bank!.regulator, ptRatio: 59.9966 }
    const computed = { ...plan, bank: { ...plan.bank!, regulator } }
    expect(deviations(computed, left)).toEqual([])
  })

  it('gives the reason why something was not done for birds', () => {
    const [first, ...rest] = left.measures
    const notDone = (why?: string) => ({
      ...left,
      measures: [{ ...first!, isDone: false, why }, ...rest],
    })
    expect(deviations(plan, notDone('wrong size'))).toMatchObject([
      { what: `${first!.measure} on pole P2`, built: 'not done: wrong size' },
    ])
    expect(deviations(plan, notDone())[0]?.built).toBe('not done, no reason given')
    expect(deviations(plan, { ...left, measures: rest })[0]?.built).toBe('not recorded')
  })

  it('names parts that were left bare, and what was done beside the plan', () => {
    const measures = left.measures.map((measure, index) =>
      index === 0 ? { ...measure, partIds: measure.partIds.slice(1) } : measure,
    )
    const [bare] = left.measures[0]!.partIds
    const extra = { pole: 'P2', measure: 'raised perch' as const, partIds: [], isDone: true }
    const found = deviations(plan, { ...left, measures: [...measures, extra] })
    expect(found.map(({ built }) => built)).toEqual([`not on ${bare}`, 'done'])
    expect(found[1]).toMatchObject({ what: 'raised perch on pole P2', planned: 'none' })
  })

  it('names an arm of another length', () => {
    const measure = { kind: 'longer arm' as const, partIds: ['arm'], dimensionM: 1.42 }
    const poles = [{ ...plan.poles[0]!, measures: [measure] }]
    const built = (dimensionM?: number) =>
      deviations(
        { ...plan, poles },
        {
          ...left,
          measures: [
            { pole: 'P2', measure: 'longer arm', partIds: ['arm'], dimensionM, isDone: true },
          ],
        },
      )
    expect(built(1.43)).toEqual([])
    expect(built(1.2)).toEqual([
      { what: 'longer arm on pole P2, dimension', planned: '1.42 m', built: '1.20 m' },
    ])
    expect(built()[0]?.built).toBe('not recorded')
  })

  it('asks for no units and settings of a bank that went', () => {
    const removed = samplePlan('remove a bank', feederWithSampleBank())
    expect(deviations(removed, leftAsPlanned(removed, { units: [] }))).toEqual([])
  })

  it('asks for no serial numbers where only settings changed', () => {
    const changed = samplePlan('change settings', feederWithSampleBank())
    const units = leftAsPlanned(changed).units.map((unit) => ({ ...unit, serialNumber: '' }))
    expect(deviations(changed, leftAsPlanned(changed, { units }))).toEqual([])
  })

  it('wants the units of a bank that is taken out of service at neutral, and no settings', () => {
    const taken = samplePlan('take a bank out of service', feederWithSampleBank())
    const { settings: _, ...off } = leftAsPlanned(taken)
    const at = (tapLeft: number) => ({
      ...off,
      units: off.units.map((unit) => ({ ...unit, serialNumber: '', tapLeft })),
    })
    expect(deviations(taken, at(0))).toEqual([])
    expect(deviations(taken, at(1))[0]).toEqual({
      what: 'A unit, position left',
      planned: 'neutral',
      built: '+1',
    })
    const read = { ...at(0), settings: { ...SAMPLE_BANK, bandCentreV: 121 } }
    expect(deviations(taken, read)).toMatchObject([{ what: 'Band centre', built: '121 V' }])
  })

  it('holds a bank that is returned to service against its settings and the power flow', () => {
    const { feeder, back } = returned()
    expect(deviations(back, leftAsPlanned(back))).toEqual([])
    const { settings: _, ...unread } = leftAsPlanned(back)
    expect(deviations(back, unread)).toMatchObject([{ what: 'Settings' }])
    const gone = samplePlan('remove a bank', feeder)
    expect(deviations(gone, leftAsPlanned(gone, { units: [] }))).toEqual([])
  })
})

function returned() {
  const feeder: Feeder = { ...sampleFeeder(), equipment: [{ ...SAMPLE_BANK, state: 'bypassed' }] }
  return { feeder, back: samplePlan('return a bank to service', feeder) }
}

describe('bird work whose step was left out', () => {
  const leftOut = (stepId: string, pole = 'P2'): JobEntry => ({
    ...{ id: 'e1', at: '2027-09-21T10:00:00.000Z', pole, kind: 'step left out', stepId },
    ...{ why: 'Covers did not come', signedBy: ['R. Vale'] },
  })
  const measures = [{ pole: 'P2', measure: 'raised perch' as const, partIds: [], isDone: true }]
  const said = (entry: JobEntry, change: Partial<AsLeft['measures'][number]> = {}) =>
    builtAgainstPlan(
      {
        ...plan,
        poles: [{ ...plan.poles[0]!, measures: [{ kind: 'raised perch', partIds: [] }] }],
      },
      { ...left, measures: measures.map((measure) => ({ ...measure, ...change })) },
      [entry],
    ).map(({ what, built }) => `${what}: ${built}`)

  it('deviates where it is said to be done, with the word on it or without one', () => {
    expect(said(leftOut('bird-work'))).toEqual([
      'raised perch on pole P2, its step: said to be done, but its step was left out (“Covers did not come”): nobody says how',
    ])
    expect(said(leftOut('bird-work'), { why: 'put on at noon' })).toEqual([
      expect.stringMatching(/: put on at noon$/),
    ])
    expect(said(leftOut('other-measures'))).toHaveLength(1)
    const two = [...left.measures, ...measures]
    const told = builtAgainstPlan(plan, { ...left, measures: two }, [leftOut('bird-work')])
    expect(told.filter(({ what }) => what.endsWith('its step'))).toHaveLength(1)
  })

  it('does not where it is said to be not done, or the step was another', () => {
    expect(said(leftOut('bird-work'), { isDone: false, why: 'no bracket' })).toEqual([
      'raised perch on pole P2: not done: no bracket',
    ])
    expect(said(leftOut('bird-work', 'P3'))).toEqual([])
    expect(said(leftOut('photos'))).toEqual([])
    const cover = left.measures[0]!
    expect(builtAgainstPlan(plan, left, [leftOut('other-measures', cover.pole)])).toEqual([])
  })

  it('is told by the steps of every order that comes along', () => {
    const aboutBirds = SHIPPED_SEQUENCES.flatMap(({ id, steps }) =>
      steps
        .filter(({ mayBeLeftOut, text }) => mayBeLeftOut && /^Put on .*(cover|perch)/i.test(text))
        .map((step) => [id, step.id] as const),
    )
    expect(aboutBirds.length).toBeGreaterThan(5)
    for (const [, stepId] of aboutBirds) {
      expect(stepLeftOutFor(measures[0]!, [leftOut(stepId)])?.stepId).toBe(stepId)
    }
  })
})
