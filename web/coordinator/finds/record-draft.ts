import { z } from 'zod'
import { keptDrafts } from '../../record/kept-drafts.ts'

/** What a person has typed into the form of a find or a nest; not yet checked. */
export const RecordDraft = z.object({
  fields: z.record(z.string(), z.string()),
  /** Version of the record that the person started from; null for a new one. */
  version: z.number().nullable(),
  /** What the record held then; null for a new one. */
  base: z.record(z.string(), z.string()).nullable(),
})
export type RecordDraft = z.infer<typeof RecordDraft>

/** Drafts of finds and nests, by kind, feeder and record. */
export const recordDrafts = keptDrafts('crossarm.bird-drafts', RecordDraft)
