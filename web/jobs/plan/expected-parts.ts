import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { leavesInService } from '#domain/jobs/is-bank-kind.ts'
import type { ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'

export interface ExpectedPart {
  /** When meters should show it; null where the plan says only one thing of all of the work. */
  readonly when: string | null
  readonly cases: readonly ExpectedCase[]
}

/** What meters should show before the work and after it. */
export function expectedParts({ kind, bank, expected, expectedFound }: JobPlan): ExpectedPart[] {
  const parts = expectedFound
    ? [
        { when: `Before the work, ${foundInWords(bank?.standing)}`, cases: expectedFound },
        {
          when: leavesInService(kind) ? 'After the work' : 'If the bank were in service',
          cases: expected,
        },
      ]
    : [
        {
          when:
            kind === 'take a bank out of service'
              ? 'Before the work, with the bank in service'
              : null,
          cases: expected,
        },
      ]
  return parts.filter(({ cases }) => cases.length > 0)
}

function foundInWords(standing: NonNullable<JobPlan['bank']>['standing']): string {
  return standing && isBypassed(standing)
    ? 'bypassed as the bank stands'
    : 'with the bank as it stands'
}
