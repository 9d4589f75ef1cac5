import { z } from 'zod'
import { type ChangeProposalBody, SavedProposal } from '#contract/proposals.ts'
import { keptDrafts } from '../record/kept-drafts.ts'
import type { EditKind } from '../record/record-edit.tsx'
import { PROPOSAL_FIELDS } from '../record/record-fields.ts'

/** What a person has typed over the name and the note of a kept proposal. */
const ProposalDraft = z.object({
  name: z.string(),
  note: z.string(),
  /** Version of the record that the person started from, and what it held then. */
  version: z.number(),
  base: z.record(z.string(), z.string()),
})
type ProposalDraft = z.infer<typeof ProposalDraft>

/** Drafts by the id of the proposal. */
export const proposalDrafts = keptDrafts('crossarm.proposal-drafts', ProposalDraft)

type Named = Pick<SavedProposal, 'name' | 'note'>

/** How name and note of a kept proposal are edited. */
export const PROPOSAL_HEAD: EditKind<Named, ProposalDraft, ChangeProposalBody> = {
  subject: 'proposal',
  what: 'this proposal',
  fields: PROPOSAL_FIELDS,
  drafts: proposalDrafts,
  draftSchema: ProposalDraft,
  newerSchema: SavedProposal,
  fieldsOf: ({ name, note }) => ({ name, note }),
  nameOf: ({ name }) => `Name and note of ${name}`,
  bodyOf: ({ name, note, version }) =>
    name.trim() === '' ? null : { name: name.trim(), note, version },
}
