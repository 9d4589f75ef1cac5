import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type ProposalRoutes =
  | 'listProposals'
  | 'saveProposal'
  | 'getProposal'
  | 'changeProposal'
  | 'deleteProposal'
  | 'restoreProposal'

export function proposalHandlers({ proposals }: Services): Pick<Handlers, ProposalRoutes> {
  return {
    listProposals: ({ params }, asker) => proposals.list(asker, params.feederId),
    saveProposal: ({ params, body }, asker) => proposals.save(asker, params.feederId, body),
    getProposal: ({ params }, asker) => proposals.get(asker, params.proposalId),
    changeProposal: ({ params, body }, asker) => proposals.change(asker, params.proposalId, body),
    deleteProposal: ({ params, query }, asker) =>
      proposals.delete(asker, params.proposalId, query.version),
    restoreProposal: ({ params, query }, asker) =>
      proposals.restore(asker, params.proposalId, query.version),
  }
}
