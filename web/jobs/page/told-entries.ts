import type { KeptEntry } from '#contract/jobs.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { offerEntry, startRun } from '#domain/jobs/job-run.ts'
import { judgeStep, type Verdict } from '#domain/jobs/judge-reading.ts'
import type { Step } from '#domain/jobs/step-sequence.ts'

/** An entry of the field with the step that it is about, and what its readings were worth then. */
export interface ToldEntry {
  readonly kept: KeptEntry
  readonly step: Step | null
  readonly verdicts: readonly Verdict[]
}

/** Goes along the run in the order of the entries, so that each is judged as the work then stood. */
export function toldEntries(plan: JobPlan, entries: readonly KeptEntry[]): ToldEntry[] {
  let run = startRun(plan)
  return entries.map((kept) => {
    const { entry } = kept
    const step = 'stepId' in entry ? stepOf(plan, entry.pole, entry.stepId) : null
    const verdicts =
      step !== null && entry.kind === 'step done'
        ? judgeStep(run, entry.pole, step, entry.phase, entry.values)
        : []
    const offer = offerEntry(run, entry)
    if (offer.ok) run = offer.run
    return { kept, step, verdicts }
  })
}

/** A step of the plan; null for one that it does not hold. */
export function stepOf({ poles }: JobPlan, pole: string, stepId: string): Step | null {
  const work = poles.find((each) => each.pole === pole)
  return work?.sequence.steps.find(({ id }) => id === stepId) ?? null
}

/** What a supervisor reads first: deviations, steps left out, and readings that were not good. */
export function isRemarkable({ kept: { entry }, verdicts }: ToldEntry): boolean {
  if (entry.kind === 'deviation' || entry.kind === 'step left out') return true
  return verdicts.some(({ verdict }) => verdict !== 'good')
}
