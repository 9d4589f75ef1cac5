import type { ChangeProposalBody, SavedProposal, SaveProposalBody } from '#contract/proposals.ts'
import type { Asker } from '#contract/rights.ts'
import { actorOf } from './actor-of.ts'
import { findFeeder } from './find-feeder.ts'
import type { Ports } from './ports.ts'
import { Refusal } from './refusal.ts'
import { refuseUnknownPlaces } from './refuse-unknown-places.ts'
import { settleWritten } from './settle-written.ts'
import { proposalSeenBy } from './without-nests.ts'

export function proposalService({ store, clock, newId }: Pick<Ports, 'store' | 'clock' | 'newId'>) {
  const stamp = (asker: Asker) => ({ actor: actorOf(asker), at: clock() })
  return {
    list: async (asker: Asker, feederId: string): Promise<SavedProposal[]> => {
      await findFeeder(store, feederId)
      const proposals = await store.proposals.list(feederId)
      return proposals.map((proposal) => proposalSeenBy(asker, proposal))
    },

    /** @throws Refusal `not-found`, or `malformed-request` naming what the feeder does not have. */
    save: async (
      asker: Asker,
      feederId: string,
      body: SaveProposalBody,
    ): Promise<SavedProposal> => {
      const { feeder, version } = await findFeeder(store, feederId)
      refuseUnknownPlaces(feeder, body.proposal)
      const { actor, at } = stamp(asker)
      const kept = { ...body, id: newId(), feederId, feederVersion: version, version: 1 }
      const proposal = { ...kept, savedBy: actor, savedAt: at, deletedAt: null }
      return store.proposals.add(proposal, { actor, at })
    },

    get: async (asker: Asker, proposalId: string): Promise<SavedProposal> => {
      const proposal = await store.proposals.find(proposalId)
      if (!proposal || proposal.deletedAt !== null)
        throw new Refusal('not-found', missing(proposalId))
      return proposalSeenBy(asker, proposal)
    },

    change: async (
      asker: Asker,
      proposalId: string,
      { version, ...body }: ChangeProposalBody,
    ): Promise<SavedProposal> => {
      const written = await store.proposals.change(proposalId, version, body, stamp(asker))
      return settleWritten(written, {
        missing: missing(proposalId),
        wrongState: 'The proposal is deleted; restore it before you change it.',
      })
    },

    delete: async (asker: Asker, proposalId: string, version: number): Promise<SavedProposal> => {
      const written = await store.proposals.delete(proposalId, version, stamp(asker))
      return settleWritten(written, {
        missing: missing(proposalId),
        wrongState: 'The proposal is deleted already.',
      })
    },

    restore: async (asker: Asker, proposalId: string, version: number): Promise<SavedProposal> => {
      const written = await store.proposals.restore(proposalId, version, stamp(asker))
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
