import type { JobSummary } from '#contract/jobs.ts'
import { isLate } from './job-words.ts'

/** Late ones first, then by due date; those without one last, the newest of them first. */
export function inOrderOfNeed<One extends Pick<JobSummary, 'dueOn' | 'state' | 'stateSince'>>(
  jobs: readonly One[],
  today: string,
): One[] {
  return [...jobs].sort(
    (a, b) =>
      Number(isLate(b, today)) - Number(isLate(a, today)) ||
      (a.dueOn ?? NEVER).localeCompare(b.dueOn ?? NEVER) ||
      b.stateSince.localeCompare(a.stateSince),
  )
}

const NEVER = '9999'
