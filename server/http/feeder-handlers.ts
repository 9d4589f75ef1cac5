import { mayDo } from '#contract/rights.ts'
import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { PreparedAnswers } from './prepared-answers.ts'

type FeederRoutes = 'listFeeders' | 'takeInFeeder' | 'getFeeder' | 'getFindings' | 'solveVoltage'

export function feederHandlers(services: Services): Pick<Handlers, FeederRoutes> {
  const prepared = new PreparedAnswers()
  return {
    listFeeders: () => services.feeders.list(),
    takeInFeeder: {
      prepare: async ({ body }, actor) => ({ write: services.takeInLayers(actor, body) }),
    },
    getFeeder: async ({ params, query }, asker) => {
      const { feederId } = params
      const state = await services.feeders.stateOf(feederId)
      // What is left out for some must never be kept for all.
      const seen = mayDo(asker, 'see nests and incidents')
      return prepared.give(`${feederId} ${query.version ?? ''} ${seen}`, state, () =>
        services.feeders.get(asker, feederId, query.version),
      )
    },
    getFindings: async ({ params }, actor) => ({
      findings: await services.feeders.check(actor, params.feederId),
    }),
    solveVoltage: ({ params, body }) => services.solveVoltage(params.feederId, body),
  }
}
