import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'
import { PreparedAnswers } from './prepared-answers.ts'

type ProtectionRoutes =
  | 'listProtections'
  | 'addProtection'
  | 'changeProtection'
  | 'deleteProtection'
  | 'restoreProtection'

export function protectionHandlers({
  feeders,
  protections,
}: Services): Pick<Handlers, ProtectionRoutes> {
  const prepared = new PreparedAnswers()
  return {
    listProtections: async ({ params: { feederId } }) =>
      prepared.give(feederId, await feeders.stateOf(feederId), () => protections.list(feederId)),
    addProtection: ({ params, body }, asker) => protections.add(asker, params.feederId, body),
    changeProtection: ({ params, body }, asker) =>
      protections.change(asker, params.feederId, params.protectionId, body),
    deleteProtection: ({ params, query }, asker) =>
      protections.delete(asker, params.feederId, params.protectionId, query.version),
    restoreProtection: ({ params, query }, asker) =>
      protections.restore(asker, params.feederId, params.protectionId, query.version),
  }
}
