import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { Proposal } from '#domain/siting/site-result.ts'
import { Actor } from './actor.ts'

export const ProposalParams = z.object({ proposalId: Id })

export const SaveProposalBody = z.object({
  name: z.string().trim().min(1).max(120),
  note: z.string().max(4000).default(''),
  request: SiteRequest,
  proposal: Proposal,
})

/** A kept proposal, with the version of the feeder that it was computed on. */
export const SavedProposal = SaveProposalBody.extend({
  id: Id,
  feederId: Id,
  feederVersion: z.number().int().min(1),
  version: z.number().int().min(1),
  savedBy: Actor,
  savedAt: z.iso.datetime(),
  deletedAt: z.iso.datetime().nullable(),
})

/** `version` is the one that the person saw; a newer one in the record refuses the change. */
export const ChangeProposalBody = SaveProposalBody.pick({ name: true, note: true }).extend({
  version: z.number().int().min(1),
})
export const ProposalVersionQuery = z.object({ version: z.coerce.number<number>().int().min(1) })

export type ChangeProposalBody = z.infer<typeof ChangeProposalBody>
export type SaveProposalBody = z.infer<typeof SaveProposalBody>
export type SavedProposal = z.infer<typeof SavedProposal>
