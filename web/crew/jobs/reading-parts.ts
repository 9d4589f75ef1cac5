import type { BankWork, ExpectedCase, JobPlan } from '#domain/jobs/job-plan.ts'
import { expectedParts } from '../../jobs/plan/expected-parts.ts'

/** What meters should show at one time of the work, and the bank that it is worked out with. */
export interface ReadingPart {
  readonly id: 'found' | 'planned'
  /** When meters should show it; null where the plan says only one thing of all of the work. */
  readonly when: string | null
  readonly cases: readonly ExpectedCase[]
  readonly bank: BankWork
  /** It hangs under its bypass: at neutral, whatever is read off. */
  readonly isAtNeutral: boolean
}

export function readingParts(plan: JobPlan): ReadingPart[] {
  const { bank } = plan
  if (!bank) return []
  return expectedParts(plan).map(({ when, cases }) =>
    cases === plan.expectedFound
      ? { id: 'found', when, cases, ...bankFound(bank) }
      : { id: 'planned', when, cases, bank, isAtNeutral: false },
  )
}

/** The power flow knows only banks in service; one under its bypass is one that stays at neutral. */
function bankFound(bank: BankWork): Pick<ReadingPart, 'bank' | 'isAtNeutral'> {
  const { state, ...regulator } = bank.standing ?? bank.regulator
  return { bank: { ...bank, regulator }, isAtNeutral: state === 'bypassed' }
}
