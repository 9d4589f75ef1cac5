import type { Actor } from '#contract/actor.ts'
import type { SavedProposal, SaveProposalBody } from '#contract/proposals.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { authorize } from './role-rules.ts'
import { settleWritten } from './settle-written.ts'

export function proposalService({ store, clock, newId }: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  return {
    list: async (actor: Actor, feederId: string): Promise<SavedProposal[]> => {
      authorize(actor, 'read')
      await findFeeder(store, feederId)
      return store.proposals.list(feederId)
    },

    save: async (
      actor: Actor,
      feederId: string,
      body: SaveProposalBody,
    ): Promise<SavedProposal> => {
      authorize(actor, 'keep a proposal')
      const { version } = await findFeeder(store, feederId)
      const at = clock()
      const kept = { ...body, id: newId(), feederId, feederVersion: version }
      const proposal = { ...kept, savedBy: actor, savedAt: at, deletedAt: null }
      await store.proposals.add(proposal, { actor, at })
      return proposal
    },

    get: async (actor: Actor, proposalId: string): Promise<SavedProposal> => {
      authorize(actor, 'read')
      const proposal = await store.proposals.find(proposalId)
      if (!proposal || proposal.deletedAt !== null)
        throw new Refusal('not-found', missing(proposalId))
      return proposal
    },

    delete: async (actor: Actor, proposalId: string): Promise<SavedProposal> => {
      authorize(actor, 'delete or restore a proposal')
      const written = await store.proposals.delete(proposalId, { actor, at: clock() })
      return settleWritten(written, {
        missing: missing(proposalId),
        wrongState: 'The proposal is deleted already.',
      })
    },

    restore: async (actor: Actor, proposalId: string): Promise<SavedProposal> => {
      authorize(actor, 'delete or restore a proposal')
      const written = await store.proposals.restore(proposalId, { actor, at: clock() })
      return settleWritten(written, {
        missing: missing(proposalId),
        wrongState: 'The proposal is not deleted, so there is nothing to restore.',
      })
    },
  }
}

function missing(proposalId: string): string {
  return `There is no proposal "${proposalId}".`
}
