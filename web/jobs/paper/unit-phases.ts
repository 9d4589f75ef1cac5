import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { PHASES, type Phase } from '#domain/units/phases.ts'

/** Phases that have a unit, before the work or after it; of a pole where one is named. */
export function unitPhases({ bank }: Pick<JobPlan, 'bank'>, poleId?: string): Phase[] {
  const banks = [bank?.regulator, bank?.standing].filter(
    (one) => one !== undefined && (poleId === undefined || one.pole === poleId),
  )
  return PHASES.filter((phase) => banks.some((one) => one?.phases.includes(phase)))
}
