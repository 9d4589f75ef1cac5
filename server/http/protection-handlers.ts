import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type ProtectionRoutes =
  | 'listProtections'
  | 'addProtection'
  | 'changeProtection'
  | 'deleteProtection'
  | 'restoreProtection'

export function protectionHandlers({ protections }: Services): Pick<Handlers, ProtectionRoutes> {
  return {
    listProtections: ({ params }) => protections.list(params.feederId),
    addProtection: ({ params, body }, asker) => protections.add(asker, params.feederId, body),
    changeProtection: ({ params, body }, asker) =>
      protections.change(asker, params.feederId, params.protectionId, body),
    deleteProtection: ({ params, query }, asker) =>
      protections.delete(asker, params.feederId, params.protectionId, query.version),
    restoreProtection: ({ params, query }, asker) =>
      protections.restore(asker, params.feederId, params.protectionId, query.version),
  }
}
