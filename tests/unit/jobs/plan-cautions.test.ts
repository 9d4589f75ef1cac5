import { describe, expect, it } from 'vitest'
import type { Capacitor } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { draftPlan, type PlanInput } from '#domain/jobs/draft-plan.ts'
import type { Hazard, JobPlan } from '#domain/jobs/job-plan.ts'
import { leftUnsafe } from '#domain/jobs/left-unsafe.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { IN_SERVICE } from '#domain/jobs/unit-state.ts'
import { SAMPLE_BANK } from './sample-bank.ts'
import { feederWithSampleBank } from './sample-plan.ts'

const CAPACITOR: Capacitor = {
  kind: 'capacitor',
  id: 'CAP-P2',
  pole: 'P2',
  phases: 'ABC',
  kvarA: 200,
  kvarB: 200,
  kvarC: 200,
  state: 'on',
}

function plan(given: Partial<PlanInput>): JobPlan {
  return draftPlan({
    feeder: feederWithSampleBank(),
    kind: 'change out a bank',
    poles: [{ pole: 'P2', measures: [] }],
    bank: { regulator: SAMPLE_BANK, standing: SAMPLE_BANK, loopOhm: 0.1 },
    sequences: SHIPPED_SEQUENCES.map((sequence) => ({ sequence, version: 0 })),
    poleTops: [],
    on: '2027-09-20',
    ...given,
  })
}

const wordsOf = ({ hazards }: JobPlan, about: Hazard['about']) =>
  hazards.filter((hazard) => hazard.about === about).map(({ what }) => what)

describe('a change-out', () => {
  const changed = (change: Partial<typeof SAMPLE_BANK>) => () =>
    plan({
      bank: { regulator: { ...SAMPLE_BANK, ...change }, standing: SAMPLE_BANK, loopOhm: 0.1 },
    })

  it('is refused where the new bank has other phases: every unit is taken to be in service', () => {
    expect(changed({ phases: 'AB' })).toThrow(
      /stands at pole P2 on span P2:P3 with phases ABC.*with phases AB\. .*in a job of its own first/,
    )
  })

  it('is refused where the new bank stands elsewhere', () => {
    expect(changed({ pole: 'P3', span: 'P3:P4' })).toThrow(/is to stand at pole P3/)
  })

  it('says what an old unit of another size weighs, since it comes down', () => {
    const old = { ...SAMPLE_BANK, ratingA: 438 }
    const words = (standing: typeof SAMPLE_BANK) =>
      wordsOf(plan({ bank: { regulator: SAMPLE_BANK, standing, loopOhm: 0.1 } }), 'weight')[0]
    // Both ranges from memory: the nameplate governs.
    expect(words(old)).toMatch(
      /A unit weighs about 1200 to .* An old unit weighs about 2000 to 2600/,
    )
    expect(words(SAMPLE_BANK)).not.toMatch(/old unit/)
    expect(words({ ...SAMPLE_BANK, ratingA: 900 })).toMatch(/weight of an old unit is not known/)
  })
})

describe('capacitors on the pole of the bank', () => {
  it('are named, though they do not lie beyond it', () => {
    const bare = feederWithSampleBank()
    const feeder: Feeder = { ...bare, equipment: [...bare.equipment, CAPACITOR] }
    expect(wordsOf(plan({ feeder }), 'backfeed').join(' ')).toMatch(
      /Capacitors keep a charge .* at least 5 minutes, .* On this pole: CAP-P2\./,
    )
    expect(wordsOf(plan({}), 'backfeed').join(' ')).not.toMatch(/Capacitors/)
  })
})

describe('a potential ratio that is not that of the line', () => {
  it('makes the control read other volts, and the plan says which', () => {
    const withRatio = (ptRatio: number) => {
      const regulator = { ...SAMPLE_BANK, ptRatio }
      return plan({ bank: { regulator, standing: SAMPLE_BANK, loopOhm: 0.1 } }).notes.join(' ')
    }
    // 7200 V over 63.5 is 113.4 V.
    expect(withRatio(63.5)).toMatch(/ratio of 63\.5 the control reads 113\.4 V at nominal 7,200 V/)
    expect(withRatio(60)).not.toMatch(/potential ratio/)
  })
})

describe('steps for each unit', () => {
  const outOfService = SHIPPED_SEQUENCES.find(({ id }) => id === 'out-of-service')!
  const inspected = (sequence: (typeof SHIPPED_SEQUENCES)[number]) =>
    draftPlan({
      feeder: feederWithSampleBank(),
      kind: 'inspection',
      poles: [{ pole: 'P2', measures: [] }],
      poleTops: [],
      on: '2027-09-20',
      sequences: [{ sequence: { ...sequence, forKinds: ['inspection'] }, version: 1 }],
    }).notes.join(' ')

  it('fall away where the job has no bank, and the plan says so', () => {
    expect(inspected(outOfService)).toMatch(/no bank is worked there under this job/)
    const round = SHIPPED_SEQUENCES.find(({ id }) => id === 'inspection-round')!
    expect(inspected(round)).not.toMatch(/fall away/)
  })
})

describe('a bank that is to go', () => {
  it('is not gone while the line runs through it', () => {
    expect(leftUnsafe('remove a bank', IN_SERVICE, IN_SERVICE)).toContain(
      'it still carries the line',
    )
    expect(leftUnsafe('inspection', IN_SERVICE, IN_SERVICE)).toEqual([])
  })
})
