import type { StepPlace } from '#domain/jobs/job-run.ts'

/** Tells the places of a run apart. */
export function keyOfPlace({ step, phase }: StepPlace): string {
  return `${step.id}~${phase ?? ''}`
}
