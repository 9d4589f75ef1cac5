import { z } from 'zod'
import type { SavedProposal } from '#contract/proposals.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { Fields } from '../record/merge-fields.ts'

/** What a person has typed over the name and the note of a kept proposal. */
export const ProposalDraft = z.object({
  name: z.string(),
  note: z.string(),
  /** Version of the record that the person started from, and what it held then. */
  version: z.number(),
  base: z.record(z.string(), z.string()),
})
export type ProposalDraft = z.infer<typeof ProposalDraft>

/** Drafts by the id of the proposal. */
export const proposalDrafts = keptDrafts('crossarm.proposal-drafts', ProposalDraft)

export function fieldsOfProposal({ name, note }: Pick<SavedProposal, 'name' | 'note'>): Fields {
  return { name, note }
}

export function draftOfProposal(saved: SavedProposal): ProposalDraft {
  const { name, note, version } = saved
  return { name, note, version, base: fieldsOfProposal(saved) }
}

/** The draft that says what was chosen of two versions, and follows on the newer one. */
export function draftOfChosenProposal(chosen: Fields, newer: SavedProposal): ProposalDraft {
  return ProposalDraft.parse({
    ...chosen,
    version: newer.version,
    base: fieldsOfProposal(newer),
  })
}
