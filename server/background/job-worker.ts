import { asBuilt } from '#domain/jobs/as-built.ts'
import { draftPlan, type PlanInput } from '#domain/jobs/draft-plan.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import type { BuildInput, Built } from '../services/work-ports.ts'

export type JobTask =
  | { readonly kind: 'draft'; readonly input: PlanInput }
  | { readonly kind: 'build'; readonly input: BuildInput }

/** Runs in a worker thread: what a job does to a large feeder takes seconds to work out. */
export default function workOut(task: JobTask): JobPlan | Built {
  return task.kind === 'draft' ? draftPlan(task.input) : build(task.input)
}

/** Of the feeder only what can differ goes back, since the rest is large. */
function build({ feeder, plan, asLeft }: BuildInput): Built {
  const { feeder: after, ...items } = asBuilt(feeder, plan, asLeft)
  return { equipment: after === feeder ? null : after.equipment, ...items }
}
