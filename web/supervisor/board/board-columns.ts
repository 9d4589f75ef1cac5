import type { JobSummary } from '#contract/jobs.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { inOrderOfNeed } from '../../jobs/job-order.ts'
import { isLate, isOpen } from '../../jobs/job-words.ts'
import { counted } from '../../state/format.ts'

/** Columns in the order in which a job goes through them; what came back stands first. */
const ORDER: readonly JobState[] = [
  'returned',
  'drafted',
  'approved',
  'issued',
  'in the field',
  'work done',
  'closed',
]

export interface Column {
  readonly state: JobState
  /** Late ones first, then by due date. */
  readonly jobs: readonly JobSummary[]
  readonly late: number
}

/** Columns that hold something. */
export function boardColumns(jobs: readonly JobSummary[], today: string): Column[] {
  return ORDER.map((state) => {
    const own = jobs.filter((job) => job.state === state)
    return {
      state,
      jobs: inOrderOfNeed(own, today),
      late: own.filter((job) => isLate(job, today)).length,
    }
  }).filter((column) => column.jobs.length > 0)
}

/** "4 jobs are open: 1 returned, 2 late; 2 wait for you." */
export function boardLine(jobs: readonly JobSummary[], today: string): string {
  const open = jobs.filter(({ state }) => isOpen(state))
  if (open.length === 0) return 'No job is open.'
  const count = (has: (job: JobSummary) => boolean) => open.filter(has).length
  const returned = count(({ state }) => state === 'returned')
  const late = count((job) => isLate(job, today))
  const waiting = count(({ state }) => YOURS.includes(state))
  const trouble = [returned > 0 && `${returned} returned`, late > 0 && `${late} late`].filter(
    (words) => words !== false,
  )
  const first = `${counted(open.length, 'job')} ${open.length === 1 ? 'is' : 'are'} open: `
  const what = trouble.length > 0 ? trouble.join(', ') : 'none late, none returned'
  const wait = waiting === 1 ? '1 waits for the supervisor' : `${waiting} wait for the supervisor`
  return `${first}${what}; ${wait}.`
}

/** States whose next step is the supervisor's. */
const YOURS: readonly JobState[] = ['drafted', 'approved', 'work done']
