import { jobIdOfView } from '../jobs/job-view.ts'

/** What stands open at the supervisor's desk, as the address has it; ids hold no "~". */
export type SupervisorView =
  | { readonly part: 'board' }
  | { readonly part: 'job'; readonly jobId: string }
  | { readonly part: 'orders' }
  | { readonly part: 'order'; readonly sequenceId: string }
  | { readonly part: 'add order' }
  | { readonly part: 'draft' }

export function supervisorView(view: string | null): SupervisorView {
  const jobId = jobIdOfView(view)
  if (jobId !== null) return { part: 'job', jobId }
  const [part, id] = view?.split('~') ?? []
  if (part === 'orders') return id ? { part: 'order', sequenceId: id } : { part }
  if (part === ADD_ORDER) return { part: 'add order' }
  return part === 'draft' ? { part } : { part: 'board' }
}

/** A new order of steps. */
export const ADD_ORDER = 'add-order'

export const viewOfOrders = (sequenceId?: string): string =>
  sequenceId === undefined ? 'orders' : `orders~${sequenceId}`
