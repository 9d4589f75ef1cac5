import type { JobSummary } from '#contract/jobs.ts'

/** A job in a list, as the server gives it; what a test is about is set over it. */
export function aJob(about: Partial<JobSummary> = {}): JobSummary {
  return {
    id: 'job-1',
    feederId: 'windmill',
    feederVersion: 1,
    feederVersionAfter: null,
    title: 'East bank',
    note: '',
    crew: 'north truck',
    origin: { kind: 'proposal', proposalId: 'p-1' },
    state: 'issued',
    stateSince: '2026-11-20T08:00:00.000Z',
    reason: '',
    kind: 'set a bank',
    poles: ['W-1'],
    stepsDone: 0,
    stepsAll: 40,
    deviations: 0,
    version: 1,
    changedBy: { id: 'someone', role: 'planner' },
    changedAt: '2026-11-20T08:00:00.000Z',
    deletedAt: null,
    ...about,
  }
}
