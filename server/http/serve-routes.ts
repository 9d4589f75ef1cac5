import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Context, MiddlewareHandler } from 'hono'
import type { Asker } from '#contract/rights.ts'
import type { Route } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { eventStream, type StreamSurroundings } from './event-stream.ts'
import { fileResponse } from './file-response.ts'
import type { FileAnswer, Handlers } from './handlers.ts'
import { openapiRoute } from './openapi-route.ts'
import { limitBody, plainBody } from './request-limits.ts'

/** A handler seen from the table, where input and answer are only known to belong together. */
export type LooseHandler = (
  input: unknown,
  asker: Asker | null,
  context: Context,
) => Promise<unknown>

/** What stands between a request and its handler. */
export interface Gate {
  /**
   * Who asks, where the row of the table lets them.
   *
   * @throws Refusal `sign-in-needed` or `not-allowed`
   */
  admit(context: Context, route: Route): Promise<Asker | null>
  /** Does the work, or gives the answer again where the same write was done before. */
  once(
    context: Context,
    route: Route,
    asker: Asker | null,
    input: unknown,
    work: () => Promise<unknown>,
  ): Promise<unknown>
}

interface ValidRequest {
  valid(target: 'json' | 'param' | 'query'): unknown
}

/** Adds one address for each row of the table. */
export function serveRoutes(
  app: OpenAPIHono,
  handlers: Handlers,
  gate: Gate,
  surroundings: StreamSurroundings,
): void {
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
    app.openapi(config, (context) => answer(context, route, handler, gate, surroundings))
  }
}

function honoPath(path: string): string {
  return path.replaceAll(/\{(\w+)\}/g, ':$1')
}

async function answer(
  context: Context,
  route: Route,
  handler: LooseHandler,
  gate: Gate,
  surroundings: StreamSurroundings,
): Promise<Response> {
  const request = context.req as unknown as ValidRequest
  const input = {
    params: route.params && request.valid('param'),
    query: route.query && request.valid('query'),
    body: route.body && request.valid('json'),
    file: route.takesFile && (context.req.raw.body ?? new Blob([]).stream()),
  }
  const asker = context.get('asker') as Asker | null
  const work = () => handler(input, asker, context)
  const result = await gate.once(context, route, asker, input, work)
  if (route.answer.mediaType === 'text/event-stream') {
    return eventStream(context, result as Parameters<typeof eventStream>[1], surroundings)
  }
  if (route.answer.mediaType === 'application/octet-stream') {
    return fileResponse(context, result as FileAnswer)
  }
  return jsonResponse(context, result, route.answer.status)
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
