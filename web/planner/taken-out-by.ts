import type { JobSummary } from '#contract/jobs.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'

/** Work after which it is known whether a bank stands in service. */
const SETTLES: readonly JobKind[] = [
  'take a bank out of service',
  'return a bank to service',
  'set a bank',
  'change out a bank',
]

type Done = Pick<JobSummary, 'kind' | 'state' | 'stateSince' | 'poles' | 'origin'>

/** The closed job that left a bank bypassed; null where the record knows of none. */
export function takenOutBy<One extends Done>(jobs: readonly One[], bank: Regulator): One | null {
  const [last] = jobs
    .filter(
      ({ kind, state, poles, origin }) =>
        state === 'closed' &&
        SETTLES.includes(kind) &&
        poles.includes(bank.pole) &&
        (origin.kind !== 'by hand' || (origin.regulatorId ?? bank.id) === bank.id),
    )
    .sort((a, b) => b.stateSince.localeCompare(a.stateSince))
  return last?.kind === 'take a bank out of service' ? last : null
}
