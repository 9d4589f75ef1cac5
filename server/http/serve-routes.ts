import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { Actor } from '#contract/actor.ts'
import type { Route } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { eventStream } from './event-stream.ts'
import type { Handlers } from './handlers.ts'
import { openapiRoute } from './openapi-route.ts'
import { readActor } from './read-actor.ts'

/** A handler seen from the table, where input and answer are only known to belong together. */
type LooseHandler = (input: unknown, actor: Actor) => Promise<unknown>

interface ValidRequest {
  valid(target: 'json' | 'param' | 'query'): unknown
}

/** Adds one address for each row of the table. */
export function serveRoutes(app: OpenAPIHono, handlers: Handlers): void {
  for (const [name, route] of Object.entries(routes)) {
    const handler = handlers[name as RouteName] as LooseHandler
    app.openapi(openapiRoute(name, route), (context) => answer(context, route, handler))
  }
}

async function answer(context: Context, route: Route, handler: LooseHandler): Promise<Response> {
  const request = context.req as unknown as ValidRequest
  const input = {
    params: route.params && request.valid('param'),
    query: route.query && request.valid('query'),
    body: route.body && request.valid('json'),
  }
  const result = await handler(input, readActor(context.req))
  if (route.answer.mediaType === 'text/event-stream') {
    return eventStream(context, result as Parameters<typeof eventStream>[1])
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
