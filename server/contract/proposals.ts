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
  savedBy: Actor,
  savedAt: z.iso.datetime(),
  deletedAt: z.iso.datetime().nullable(),
})

export type SaveProposalBody = z.infer<typeof SaveProposalBody>
export type SavedProposal = z.infer<typeof SavedProposal>
