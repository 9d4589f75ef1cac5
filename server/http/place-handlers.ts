import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

export function placeHandlers(services: Services): Pick<Handlers, 'getLand'> {
  return {
    getLand: ({ params }) => services.getLand(params.placeId),
  }
}
