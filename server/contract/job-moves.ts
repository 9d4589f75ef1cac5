import type { JobState } from '#domain/jobs/job-state.ts'
import type { Role } from './actor.ts'

/** Who may move a job to a state; the one table of it. Which moves there are says `job-state.ts`. */
const MAY_MOVE_TO: Readonly<Record<JobState, readonly Role[]>> = {
  drafted: ['planner', 'coordinator', 'supervisor'],
  approved: ['supervisor'],
  issued: ['supervisor'],
  'in the field': ['crew', 'supervisor'],
  'work done': ['crew', 'supervisor'],
  closed: ['supervisor'],
  returned: ['crew', 'supervisor'],
}

export function mayMoveTo(role: Role, state: JobState): boolean {
  return MAY_MOVE_TO[state].includes(role)
}
