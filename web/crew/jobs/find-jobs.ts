import type { JobSummary } from '#contract/jobs.ts'

/** Scraps shorter than this are in every title. */
const LEAST_LETTERS = 2

/** Jobs that are not closed whose title, crew or id holds the scrap; none for an empty one. */
export function findJobs(jobs: readonly JobSummary[], scrap: string): JobSummary[] {
  const wanted = scrap.trim().toLowerCase()
  if (wanted.length < LEAST_LETTERS) return []
  return jobs.filter(
    ({ state, title, crew, id }) =>
      state !== 'closed' && [title, crew, id].some((text) => text.toLowerCase().includes(wanted)),
  )
}
