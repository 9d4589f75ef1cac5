import { OpenAPIHono } from '@hono/zod-openapi'
import { bodyLimit } from 'hono/body-limit'
import { compress } from 'hono/compress'
import { requestId } from 'hono/request-id'
import type { Settings } from '#contract/service.ts'
import { Refusal } from '../services/refusal.ts'
import type { Services } from '../services/services.ts'
import { errorResponse } from './error-response.ts'
import { feederHandlers } from './feeder-handlers.ts'
import { ownSiteOnly } from './own-site-only.ts'
import { placeHandlers } from './place-handlers.ts'
import { proposalHandlers } from './proposal-handlers.ts'
import { protectionHandlers } from './protection-handlers.ts'
import { refuseInput } from './refuse-input.ts'
import { securityHeaders } from './security-headers.ts'
import { serveRoutes } from './serve-routes.ts'
import { serviceHandlers } from './service-handlers.ts'
import { serveScreens } from './static-files.ts'
import { studyHandlers } from './study-handlers.ts'
import { unknownAddress } from './unknown-address.ts'

/** Room for the layers of a very large feeder, about 100,000 poles. */
const MOST_BODY_BYTES = 128 * 1024 * 1024

export interface AppOptions {
  readonly settings: Settings
  /** Host names by which the server is reached, beside its addresses. */
  readonly names: readonly string[]
  /** Folder of the built screens. */
  readonly webFolder: string
  readonly version: string
  readonly reportFault: (fault: unknown) => void
}

/** The whole server as one function from request to answer. */
export function createApp(services: Services, options: AppOptions): OpenAPIHono {
  const app = new OpenAPIHono({
    defaultHook: (result) => {
      if (!result.success) throw refuseInput(result.target, result.error)
    },
  })
  app.onError((error, context) => errorResponse(context, error, options.reportFault))
  app.use(requestId())
  app.use(securityHeaders(options.settings.mapStyleUrl))
  app.use(ownSiteOnly(options.names))
  app.use(compress())
  app.use('/api/*', bodyLimit({ maxSize: MOST_BODY_BYTES, onError: refuseTooLarge }))
  serveRoutes(app, {
    ...feederHandlers(services),
    ...placeHandlers(services),
    ...studyHandlers(services),
    ...proposalHandlers(services),
    ...protectionHandlers(services),
    ...serviceHandlers(
      services,
      options.settings,
      once(() => describe(app, options.version)),
    ),
  })
  app.all('/api/*', unknownAddress)
  serveScreens(app, options.webFolder)
  return app
}

function refuseTooLarge(): never {
  const most = MOST_BODY_BYTES / 1024 / 1024
  throw new Refusal('too-large', `A request may hold ${most} MB at most.`)
}

function describe(app: OpenAPIHono, version: string): Record<string, unknown> {
  const document = app.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Crossarm',
      version,
      description: 'Voltages, regulator siting, bird guards and the record of one set of poles.',
      license: { name: 'Apache-2.0', url: 'https://www.apache.org/licenses/LICENSE-2.0' },
    },
  })
  return { ...document }
}

/** The document is long to make and never changes. */
function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}
