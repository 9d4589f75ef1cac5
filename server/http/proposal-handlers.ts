import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type ProposalRoutes =
  | 'listProposals'
  | 'saveProposal'
  | 'getProposal'
  | 'deleteProposal'
  | 'restoreProposal'

export function proposalHandlers({ proposals }: Services): Pick<Handlers, ProposalRoutes> {
  return {
    listProposals: ({ params }, actor) => proposals.list(actor, params.feederId),
    saveProposal: ({ params, body }, actor) => proposals.save(actor, params.feederId, body),
    getProposal: ({ params }, actor) => proposals.get(actor, params.proposalId),
    deleteProposal: ({ params }, actor) => proposals.delete(actor, params.proposalId),
    restoreProposal: ({ params }, actor) => proposals.restore(actor, params.proposalId),
  }
}
