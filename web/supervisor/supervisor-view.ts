/** What stands open at the supervisor's desk, as the address has it; ids hold no "~". */
export type SupervisorView =
  | { readonly part: 'board' }
  | { readonly part: 'job'; readonly jobId: string }
  | { readonly part: 'orders' }
  | { readonly part: 'order'; readonly sequenceId: string }
  | { readonly part: 'draft' }

export function supervisorView(view: string | null): SupervisorView {
  const [part, id] = view?.split('~') ?? []
  if (part === 'job' && id) return { part, jobId: id }
  if (part === 'orders') return id ? { part: 'order', sequenceId: id } : { part }
  return part === 'draft' ? { part } : { part: 'board' }
}

export const viewOfJob = (jobId: string): string => `job~${jobId}`
export const viewOfOrders = (sequenceId?: string): string =>
  sequenceId === undefined ? 'orders' : `orders~${sequenceId}`
