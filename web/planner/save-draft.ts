import { z } from 'zod'
import { keptDrafts } from '../record/kept-drafts.ts'

const SaveDraft = z.object({
  isOpen: z.boolean(),
  /** Once it is kept, the form that hands it to the crew opens. */
  isForCrew: z.boolean(),
  /** Null as long as the suggested name stands. */
  name: z.string().nullable(),
  note: z.string(),
})
export type SaveDraft = z.infer<typeof SaveDraft>

const NONE: SaveDraft = { isOpen: false, isForCrew: false, name: null, note: '' }

/** What was typed, by proposal, so that neither looking elsewhere nor a reload loses it. */
const drafts = keptDrafts('crossarm.save-drafts', SaveDraft)

export function useSaveDraft(key: string) {
  const draft = drafts.use(key) ?? NONE
  return {
    ...draft,
    change: (part: Partial<SaveDraft>) => drafts.keep(key, { ...draft, ...part }),
    clear: () => drafts.keep(key, null),
  }
}
