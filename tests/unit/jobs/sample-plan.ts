import type { Feeder } from '#domain/feeder/feeder.ts'
import { AsLeft } from '#domain/jobs/as-left.ts'
import { draftPlan } from '#domain/jobs/draft-plan.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { SAMPLE_BANK, sampleFeeder } from './sample-bank.ts'

/** The sample feeder with the sample bank standing in it. */
export function feederWithSampleBank(): Feeder {
  return { ...sampleFeeder(), equipment: [{ ...SAMPLE_BANK, installedYear: 1999 }] }
}

/** A plan on the pole of the sample bank, with the covers that are cheapest there. */
export function samplePlan(kind: JobKind, feeder: Feeder = sampleFeeder()): JobPlan {
  const standing = feeder.equipment.find((item) => item.kind === 'regulator')
  const needsBank = kind !== 'retrofit round' && kind !== 'inspection'
  return draftPlan({
    feeder,
    kind,
    poles: [{ pole: 'P2', measures: 'cheapest' }],
    ...(needsBank && {
      bank: { regulator: SAMPLE_BANK, loopOhm: 0.1, ...(standing && { standing }) },
    }),
    sequences: SHIPPED_SEQUENCES.map((sequence) => ({ sequence, version: 0 })),
    poleTops: [],
    on: '2027-09-20',
  })
}

/** Everything left as it was planned, with the taps of the heaviest case. */
export function leftAsPlanned(plan: JobPlan, change: Partial<AsLeft> = {}): AsLeft {
  const { bank, expected, poles } = plan
  const readings = expected[0]?.readings ?? []
  return AsLeft.parse({
    on: '2027-09-21',
    crew: ['R. Vale', 'M. Osei'],
    units: readings.map(({ phase, tap }) => ({
      phase,
      serialNumber: `SN-${phase}`,
      ratingKva: bank?.regulator.ratingKva,
      ratingA: bank?.regulator.ratingA,
      tapLeft: tap,
    })),
    ...(bank && { settings: bank.regulator }),
    measures: poles.flatMap(({ measures, pole }) =>
      measures.map(({ dimensionM, kind, partIds }) => ({
        pole,
        measure: kind,
        partIds,
        dimensionM,
        isDone: true,
      })),
    ),
    signedBy: 'R. Vale',
    ...change,
  })
}
