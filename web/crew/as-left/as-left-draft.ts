import { z } from 'zod'
import { keptOnDevice } from '../work/kept-on-device.ts'

const Fields = z.record(z.string(), z.string())

/** What a person has typed of what is left at the poles; not yet checked. */
export const AsLeftDraft = z.object({
  fields: Fields,
  /** Version of the record that it began from; 0 where there was none. */
  version: z.number().int().min(0),
  /** What the record held then; null where there was none. */
  base: Fields.nullable(),
})
export type AsLeftDraft = z.infer<typeof AsLeftDraft>

/** Drafts by job. */
export const asLeftDrafts = keptOnDevice('as-left-draft', AsLeftDraft)

/** What a sent form began from, by the item that carries it: a conflict is held against it. */
export const asLeftBases = keptOnDevice('as-left-base', Fields)
