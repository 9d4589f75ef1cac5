import type { Settings } from '#contract/service.ts'
import type { Services } from '../services/services.ts'
import type { Handlers } from './handlers.ts'

type ServiceRoutes = 'getHealth' | 'getSettings' | 'getOpenapi'

/** `describe` gives the OpenAPI document, which is there once all routes are. */
export function serviceHandlers(
  services: Services,
  settings: Settings,
  describe: () => Record<string, unknown>,
): Pick<Handlers, ServiceRoutes> {
  return {
    getHealth: async () => ({ status: 'ok', feeders: await services.countFeeders() }),
    getSettings: async () => settings,
    getOpenapi: async () => describe(),
  }
}
