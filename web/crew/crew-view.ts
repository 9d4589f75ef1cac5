/** What stands open on the crew's desk. */
export type CrewView =
  | { readonly part: 'jobs' }
  | { readonly part: 'pole finder' }
  | { readonly part: 'job'; readonly jobId: string }
  | { readonly part: 'steps'; readonly jobId: string; readonly poleId: string }
  | { readonly part: 'as-left'; readonly jobId: string }
  | { readonly part: 'outbox' }

/** Reads the view of the address: `job:<id>:steps:<pole>` and the like; anything else is the jobs. */
export function crewViewOf(view: string | null): CrewView {
  if (view === 'pole finder' || view === 'outbox') return { part: view }
  const [kind, job, page, pole] = view?.split(':') ?? []
  if (kind !== 'job' || !job) return { part: 'jobs' }
  const jobId = decoded(job)
  if (page === 'as-left') return { part: 'as-left', jobId }
  if (page === 'steps' && pole) return { part: 'steps', jobId, poleId: decoded(pole) }
  return { part: 'job', jobId }
}

/** The view as it stands in the address; an id may hold a colon, which is written in its escaped form. */
export function viewText(view: CrewView): string | null {
  switch (view.part) {
    case 'jobs':
      return null
    case 'pole finder':
    case 'outbox':
      return view.part
    case 'job':
      return `job:${encodeURIComponent(view.jobId)}`
    case 'as-left':
      return `job:${encodeURIComponent(view.jobId)}:as-left`
    case 'steps':
      return `job:${encodeURIComponent(view.jobId)}:steps:${encodeURIComponent(view.poleId)}`
  }
}

/** A link that was cut short may end within an escape; it then stands for itself. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
