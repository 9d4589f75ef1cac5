import {
  countOf,
  type JobRun,
  missingForEnd,
  nextPlace,
  type StepsCount,
  stepsAt,
} from '#domain/jobs/job-run.ts'
import type { JobState } from '#domain/jobs/job-state.ts'

/** The one thing that the crew does next with a job. */
export type NextStep =
  | { readonly kind: 'begin'; readonly poleId: string }
  | {
      readonly kind: 'steps'
      readonly poleId: string
      readonly count: StepsCount
    }
  | { readonly kind: 'as-left' }
  /** All steps are gone through, and something still stands in the way of the end. */
  | { readonly kind: 'mend'; readonly poleId: string; readonly missing: readonly string[] }
  | { readonly kind: 'end' }
  /** It was sent back, and the crew may go on with a reason. */
  | { readonly kind: 'resume' }
  | { readonly kind: 'nothing' }

interface Given {
  readonly state: JobState
  readonly run: JobRun
  /** Poles of the job as the crew goes round them. */
  readonly order: readonly string[]
  readonly hasAsLeft: boolean
}

export function nextStepOf({ state, run, order, hasAsLeft }: Given): NextStep {
  const [first] = order
  if (state === 'returned') return { kind: 'resume' }
  if (first === undefined) return { kind: 'nothing' }
  if (state === 'issued') return { kind: 'begin', poleId: openPole(run, order) ?? first }
  if (state !== 'in the field') return { kind: 'nothing' }
  const poleId = openPole(run, order)
  if (poleId !== undefined) return { kind: 'steps', poleId, count: countAt(run, poleId) }
  if (!hasAsLeft) return { kind: 'as-left' }
  const missing = missingForEnd(run)
  return missing.length > 0 ? { kind: 'mend', poleId: first, missing } : { kind: 'end' }
}

/** A pole that was begun comes before one that was not, so that no work is left half done. */
function openPole(run: JobRun, order: readonly string[]): string | undefined {
  const open = order.filter((poleId) => nextPlace(run, poleId) !== null)
  return open.find((poleId) => countAt(run, poleId).done > 0) ?? open[0]
}

/** No switch and no unit was touched yet, so meters show the bank as it stands. */
export function isBeforeWork({ poles }: JobRun): boolean {
  return ![...poles.values()].some(({ places }) =>
    places.some(({ step, status }) => step.action !== undefined && status === 'done'),
  )
}

/** Steps at a pole. */
export function countAt(run: JobRun, poleId: string): StepsCount {
  return countOf(stepsAt(run, poleId))
}
