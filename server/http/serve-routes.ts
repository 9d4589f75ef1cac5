import { isDeepStrictEqual } from 'node:util'
import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Context, MiddlewareHandler } from 'hono'
import type { Asker } from '#contract/rights.ts'
import type { Route } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { Refusal } from '../services/refusal.ts'
import type { Services } from '../services/services.ts'
import { answerOnce, type LooseHandler } from './answer-once.ts'
import { eventStream, type StreamSurroundings } from './event-stream.ts'
import { fileResponse } from './file-response.ts'
import type { FileAnswer, Handlers } from './handlers.ts'
import { openapiRoute } from './openapi-route.ts'
import { PreparedAnswer } from './prepared-answers.ts'
import { preparedResponse } from './prepared-response.ts'
import { limitBody, plainBody } from './request-limits.ts'

/** What stands between a request and its handler. */
export interface Gate {
  /**
   * Who asks, where the row of the table lets them.
   *
   * @throws Refusal `sign-in-needed` or `not-allowed`
   */
  admit(context: Context, route: Route): Promise<Asker | null>
}

/** What the routes need of the server around them. */
export interface RouteSurroundings extends StreamSurroundings {
  readonly gate: Gate
  readonly repeatable: Services['repeatable']
}

interface ValidRequest {
  valid(target: 'json' | 'param' | 'query'): unknown
}

/** Adds one address for each row of the table. */
export function serveRoutes(
  app: OpenAPIHono,
  handlers: Handlers,
  surroundings: RouteSurroundings,
): void {
  const { gate } = surroundings
  for (const [name, route] of Object.entries(routes)) {
    const handler = handlers[name as RouteName] as LooseHandler
    const config = openapiRoute(name, route)
    // Before the body is read: what may not be done need not be taken in.
    const admit: MiddlewareHandler = async (context, next) => {
      context.set('asker', await gate.admit(context, route))
      await next()
    }
    const path = honoPath(route.path)
    app.on(route.method, path, admit, limitBody(route), plainBody(route))
    app.openapi(config, (context) => answer(context, route, handler, surroundings))
  }
}

function honoPath(path: string): string {
  return path.replaceAll(/\{(\w+)\}/g, ':$1')
}

async function answer(
  context: Context,
  route: Route,
  handler: LooseHandler,
  surroundings: RouteSurroundings,
): Promise<Response> {
  const request = context.req as unknown as ValidRequest
  const input = {
    params: route.params && request.valid('param'),
    query: route.query && request.valid('query'),
    body: route.body && request.valid('json'),
    file: route.takesFile && (context.req.raw.body ?? new Blob([]).stream()),
  }
  const asker = context.get('asker') as Asker | null
  const asked = { context, route, asker, input }
  const result = await answerOnce(handler, asked, surroundings.repeatable)
  if (route.answer.mediaType === 'text/event-stream') {
    const events = result as Parameters<typeof eventStream>[1]
    const isStillAdmitted = () => isAdmittedAgain(context, route, asker, surroundings.gate)
    return eventStream(context, events, { ...surroundings, isStillAdmitted })
  }
  if (route.answer.mediaType === 'application/octet-stream') {
    return fileResponse(context, result as FileAnswer)
  }
  if (result instanceof PreparedAnswer) return preparedResponse(context, result)
  return jsonResponse(context, result, route.answer.status)
}

/** False once the session ended, or the person's rights changed. */
async function isAdmittedAgain(
  context: Context,
  route: Route,
  asker: Asker | null,
  gate: Gate,
): Promise<boolean> {
  const again = await gate.admit(context, route).catch((error: unknown) => {
    if (error instanceof Refusal && error.code !== 'unavailable') return 'refused' as const
    throw error
  })
  return isDeepStrictEqual(again, asker)
}

/** The length is said, so that small answers are left uncompressed. */
function jsonResponse(context: Context, result: unknown, status: 200 | 201 | 202): Response {
  const text = JSON.stringify(result)
  return context.body(text, status, {
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(text)),
    'cache-control': 'no-store',
  })
}
