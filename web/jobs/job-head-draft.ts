import { z } from 'zod'
import { Job, type JobHead } from '#contract/jobs.ts'
import type { BodyOf } from '../api/jobs.ts'
import { JOB_FIELDS } from '../record/job-record-fields.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { EditKind } from '../record/record-edit.tsx'

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
type HeadDraft = z.infer<typeof HeadDraft>

/** Drafts by the id of the job. */
export const headDrafts = keptDrafts('crossarm.job-head-drafts', HeadDraft)

export const NO_HEAD: HeadFields = { title: '', note: '', dueOn: '', crew: '' }

type Head = Pick<JobHead, 'title' | 'note' | 'dueOn' | 'crew'>

/** As it is sent. */
export function headOfFields({ title, note, dueOn, crew }: HeadFields): Head {
  return { title: title.trim(), note, crew: crew.trim(), ...(dueOn !== '' && { dueOn }) }
}

/** How title, note, due date and crew of a job are edited. */
export const JOB_HEAD: EditKind<Head, HeadDraft, BodyOf<'changeJob'>> = {
  subject: 'job',
  what: 'this job',
  fields: JOB_FIELDS,
  drafts: headDrafts,
  draftSchema: HeadDraft,
  newerSchema: Job.pick({
    title: true,
    note: true,
    dueOn: true,
    crew: true,
    version: true,
    deletedAt: true,
  }),
  fieldsOf: ({ title, note, dueOn, crew }) => ({ title, note, dueOn: dueOn ?? '', crew }),
  nameOf: ({ title }) => `Title, note, due date and crew of ${title}`,
  bodyOf: (draft) =>
    draft.title.trim() === '' ? null : { ...headOfFields(draft), version: draft.version },
}
