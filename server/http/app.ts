import { OpenAPIHono } from '@hono/zod-openapi'
import { compress } from 'hono/compress'
import { requestId } from 'hono/request-id'
import type { Settings } from '#contract/service.ts'
import type { ServerLog } from '../log/server-log.ts'
import type { People } from '../people/people.ts'
import type { Services } from '../services/services.ts'
import { accountHandlers } from './account-handlers.ts'
import { attachmentHandlers } from './attachment-handlers.ts'
import { birdHandlers } from './bird-handlers.ts'
import { changeHandlers } from './change-handlers.ts'
import { errorResponse, type WhyUnavailable } from './error-response.ts'
import { STREAM_BEAT_MS } from './event-stream.ts'
import { feederHandlers } from './feeder-handlers.ts'
import { admission } from './gate.ts'
import type { Handlers } from './handlers.ts'
import { historyHandlers } from './history-handlers.ts'
import { jobHandlers } from './job-handlers.ts'
import { type MeasureSource, openMeasures } from './measures.ts'
import { SECURITY_SCHEMES } from './openapi-route.ts'
import { ownSiteOnly } from './own-site-only.ts'
import { peopleHandlers } from './people-handlers.ts'
import { placeHandlers } from './place-handlers.ts'
import { proposalHandlers } from './proposal-handlers.ts'
import { protectionHandlers } from './protection-handlers.ts'
import { refuseInput } from './refuse-input.ts'
import { reportHandlers } from './report-handlers.ts'
import { limitAddress } from './request-limits.ts'
import { requestLog } from './request-log.ts'
import { securityHeaders } from './security-headers.ts'
import { serveLibrary } from './serve-library.ts'
import { serveRoutes } from './serve-routes.ts'
import { type Readiness, serviceHandlers } from './service-handlers.ts'
import { serveScreens } from './static-files.ts'
import { studyHandlers } from './study-handlers.ts'
import { unknownAddress } from './unknown-address.ts'
import { workHandlers } from './work-handlers.ts'

/** A request id of a proxy is taken over if it is no longer, and plain: letters, digits, - _ =. */
const MOST_ID_CHARACTERS = 64

export interface AppOptions {
  /** Asked each time, since the first administrator may come while the server runs. */
  readonly settings: () => Promise<Settings>
  readonly mapStyleUrl: string | null
  /** People reach the server by https only, through a proxy. */
  readonly isEncrypted: boolean
  /** Where people reach the server; null where it is reached by its own address. */
  readonly origin: string | null
  /** Host names by which the server is reached, beside its addresses. */
  readonly names: readonly string[]
  /** Folder of the built screens. */
  readonly webFolder: string
  readonly version: string
  readonly people: People
  readonly log: ServerLog
  readonly whyUnavailable: WhyUnavailable
  readonly readiness: Readiness
  readonly measures: MeasureSource
  /** How often event streams give a sign of life; 15 s when left out. */
  readonly streamBeatMs?: number
}

/** The whole server as one function from request to answer. */
export function createApp(services: Services, options: AppOptions): OpenAPIHono {
  const app = new OpenAPIHono({
    defaultHook: (result) => {
      if (!result.success) throw refuseInput(result.target, result.error)
    },
  })
  const measures = openMeasures(options.measures)
  app.onError((error, context) =>
    errorResponse(context, error, options.log, options.whyUnavailable),
  )
  app.use(requestId({ limitLength: MOST_ID_CHARACTERS }))
  app.use(requestLog(options.log))
  app.use(measures.register)
  app.use(securityHeaders(options))
  app.use(ownSiteOnly(options.names, options.origin))
  app.use(limitAddress)
  app.use(compress())
  const handlers: Handlers = {
    ...accountHandlers(options.people),
    ...peopleHandlers(options.people),
    ...attachmentHandlers(services),
    ...birdHandlers(services),
    ...jobHandlers(services),
    ...changeHandlers(services),
    ...feederHandlers(services),
    ...historyHandlers(services),
    ...placeHandlers(services),
    ...studyHandlers(services),
    ...workHandlers(services),
    ...reportHandlers(services),
    ...proposalHandlers(services),
    ...protectionHandlers(services),
    ...serviceHandlers({
      readiness: options.readiness,
      measures,
      settings: options.settings,
      describe: once(() => describe(app, options.version)),
    }),
  }
  const { people, log, readiness } = options
  const gate = { admit: admission(people) }
  const { repeatable } = services
  const { stopping } = readiness
  const beatMs = options.streamBeatMs ?? STREAM_BEAT_MS
  serveRoutes(app, handlers, { gate, repeatable, stopping, log, beatMs })
  serveLibrary(app, people)
  app.all('/api/*', unknownAddress)
  serveScreens(app, options.webFolder)
  return app
}

function describe(app: OpenAPIHono, version: string): Record<string, unknown> {
  for (const [name, scheme] of Object.entries(SECURITY_SCHEMES)) {
    app.openAPIRegistry.registerComponent('securitySchemes', name, scheme)
  }
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
