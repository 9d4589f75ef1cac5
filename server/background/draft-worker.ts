import { draftPlan, type PlanInput } from '#domain/jobs/draft-plan.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'

/** Runs in a worker thread: the plan of a large round takes seconds. */
export default function draft(input: PlanInput): JobPlan {
  return draftPlan(input)
}
