import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type ProtectionRoutes =
  | 'listProtections'
  | 'addProtection'
  | 'changeProtection'
  | 'deleteProtection'
  | 'restoreProtection'
  | 'getProtectionHistory'

export function protectionHandlers({ protections }: Services): Pick<Handlers, ProtectionRoutes> {
  return {
    listProtections: ({ params }, actor) => protections.list(actor, params.feederId),
    addProtection: ({ params, body }, actor) => protections.add(actor, params.feederId, body),
    changeProtection: ({ params, body }, actor) =>
      protections.change(actor, params.feederId, params.protectionId, body),
    deleteProtection: ({ params, query }, actor) =>
      protections.delete(actor, params.feederId, params.protectionId, query.version),
    restoreProtection: ({ params }, actor) =>
      protections.restore(actor, params.feederId, params.protectionId),
    getProtectionHistory: ({ params }, actor) =>
      protections.history(actor, params.feederId, params.protectionId),
  }
}
