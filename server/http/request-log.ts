import type { MiddlewareHandler } from 'hono'
import { routePath } from 'hono/route'
import type { ServerLog } from '../log/server-log.ts'

/**
 * One line for each request: what was asked of which row of the table, how it went and how long
 * the answer took to make. Never the address itself, which may name people or carry a token.
 */
export function requestLog(log: ServerLog): MiddlewareHandler {
  return async (context, next) => {
    const start = performance.now()
    await next()
    log.info('request', {
      requestId: String(context.get('requestId')),
      method: context.req.method,
      route: routePath(context),
      status: context.res.status,
      durationMs: Math.round((performance.now() - start) * 10) / 10,
    })
  }
}
