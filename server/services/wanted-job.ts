import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { PlanInput } from '#domain/jobs/draft-plan.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'

/** What the plan of a job is drawn up for. */
export interface WantedJob {
  readonly kind: JobKind
  readonly poles: PlanInput['poles']
  readonly regulator?: Regulator
  readonly standing?: Regulator
}

export function regulatorsOf({ equipment }: Feeder): Regulator[] {
  return equipment.filter((item) => item.kind === 'regulator')
}
