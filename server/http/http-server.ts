import { createServer, type Server } from 'node:http'
import { createAdaptorServer } from '@hono/node-server'
import type { OpenAPIHono } from '@hono/zod-openapi'

export interface ServerLimits {
  /** All headers must be there by then; who trickles them in is let go. */
  readonly headersMs: number
  /** The whole request must be there by then. */
  readonly requestMs: number
  /** How often connections are looked at for the two above. */
  readonly checkEveryMs: number
  /** How long an idle connection is kept for a next request. */
  readonly keepAliveMs: number
  readonly headerBytes: number
  /** Connections at one time; more are closed at once. */
  readonly connections: number
}

export const SERVER_LIMITS: ServerLimits = {
  headersMs: 15_000,
  // 128 MB, the largest body, take 107 s at 10 Mbit/s.
  requestMs: 180_000,
  checkEveryMs: 2_000,
  // Longer than the 60 s after which proxies commonly close their side (common practice, no
  // source): a connection closed here in the moment that a proxy uses it would be an error there.
  keepAliveMs: 65_000,
  // Node's own default; the longest header of a browser here is the session cookie, below 1 kB.
  headerBytes: 16 * 1024,
  // Ten for each of 200 people: a browser opens six and one event stream.
  connections: 2_000,
}

/** The server of Node around the app, with bounds on what a connection may take. */
export function createHttpServer(app: OpenAPIHono, limits = SERVER_LIMITS): Server {
  const server = createAdaptorServer({
    fetch: app.fetch,
    createServer,
    serverOptions: {
      headersTimeout: limits.headersMs,
      requestTimeout: limits.requestMs,
      connectionsCheckingInterval: limits.checkEveryMs,
      keepAliveTimeout: limits.keepAliveMs,
      maxHeaderSize: limits.headerBytes,
    },
  }) as Server
  server.maxConnections = limits.connections
  return server
}
