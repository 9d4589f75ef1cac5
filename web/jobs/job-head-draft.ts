import { z } from 'zod'
import { Job, type JobHead } from '#contract/jobs.ts'
import { ProblemError } from '#contract/read-answer.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { Fields } from '../record/merge-fields.ts'

/** What a person has typed of a job; a due date that is empty is none. */
export const HeadFields = z.object({
  title: z.string(),
  note: z.string(),
  dueOn: z.string(),
  crew: z.string(),
})
export type HeadFields = z.infer<typeof HeadFields>

const HeadDraft = HeadFields.extend({
  /** Version of the job that the person started from, and what it held then. */
  version: z.number(),
  base: HeadFields,
})
export type HeadDraft = z.infer<typeof HeadDraft>

/** Drafts by the id of the job. */
export const headDrafts = keptDrafts('crossarm.job-head-drafts', HeadDraft)

export const NO_HEAD: HeadFields = { title: '', note: '', dueOn: '', crew: '' }

type Head = Pick<JobHead, 'title' | 'note' | 'dueOn' | 'crew'>

export function fieldsOfHead({ title, note, dueOn, crew }: Head): HeadFields {
  return { title, note, dueOn: dueOn ?? '', crew }
}

/** As it is sent. */
export function headOfFields({ title, note, dueOn, crew }: HeadFields): Head {
  return { title: title.trim(), note, crew: crew.trim(), ...(dueOn !== '' && { dueOn }) }
}

export function draftOfJob(job: Head & Pick<Job, 'version'>): HeadDraft {
  const fields = fieldsOfHead(job)
  return { ...fields, version: job.version, base: fields }
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosenHead(chosen: Fields, newer: Head & Pick<Job, 'version'>): HeadDraft {
  return HeadDraft.parse({ ...chosen, version: newer.version, base: fieldsOfHead(newer) })
}

const NewerJob = Job.pick({
  title: true,
  note: true,
  dueOn: true,
  crew: true,
  version: true,
  deletedAt: true,
})
export type NewerJob = z.infer<typeof NewerJob>

/** The job as someone else left it meanwhile, where that is why saving was refused. */
export function newerJobOf(error: Error | null): NewerJob | null {
  if (!(error instanceof ProblemError)) return null
  return NewerJob.safeParse(error.problem.current).data ?? null
}
