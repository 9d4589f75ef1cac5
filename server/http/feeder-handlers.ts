import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type FeederRoutes = 'listFeeders' | 'takeInFeeder' | 'getFeeder' | 'getFindings' | 'solveVoltage'

export function feederHandlers(services: Services): Pick<Handlers, FeederRoutes> {
  return {
    listFeeders: () => services.feeders.list(),
    takeInFeeder: {
      prepare: async ({ body }, actor) => ({ write: services.takeInLayers(actor, body) }),
    },
    getFeeder: ({ params, query }, actor) =>
      services.feeders.get(actor, params.feederId, query.version),
    getFindings: async ({ params }, actor) => ({
      findings: await services.feeders.check(actor, params.feederId),
    }),
    solveVoltage: ({ params, body }) => services.solveVoltage(params.feederId, body),
  }
}
