import { isIP } from 'node:net'
import { hostname } from 'node:os'
import type { MiddlewareHandler } from 'hono'
import { Refusal } from '../services/refusal.ts'

const READING_METHODS = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Refuses what another site makes a browser ask for, which would send the session's cookie along:
 * a write must come from a page of this server, and every request must name this server by an
 * address or one of its own names, so that a foreign name that was pointed here reaches nothing.
 *
 * @param names host names by which the server is reached, beside its addresses
 * @param ownOrigin where people reach it through a proxy, which may name it otherwise
 */
export function ownSiteOnly(
  names: readonly string[],
  ownOrigin: string | null = null,
): MiddlewareHandler {
  const behindProxy = ownOrigin === null ? [] : [new URL(ownOrigin).hostname]
  const all = ['localhost', hostname(), ...names, ...behindProxy]
  const own = new Set(all.map((name) => name.toLowerCase()))
  return async (context, next) => {
    const host = context.req.header('host') ?? ''
    if (!isOwnHost(host, own)) {
      throw new Refusal(
        'cross-site',
        `This server is not known as "${host}". Use its address, or name it in CROSSARM_NAMES.`,
      )
    }
    if (!READING_METHODS.has(context.req.method) && isForeign(context.req, host, ownOrigin)) {
      throw new Refusal('cross-site', 'Changes are taken only from the pages of this server.')
    }
    await next()
  }
}

/** An address cannot be pointed elsewhere, so any is fine. */
function isOwnHost(host: string, own: ReadonlySet<string>): boolean {
  const name = host
    .replace(/:\d+$/, '')
    .replace(/^\[|\]$/g, '')
    .toLowerCase()
  return isIP(name) !== 0 || own.has(name)
}

/** Programs that are no browser send neither header. */
function isForeign(
  request: { header(name: string): string | undefined },
  host: string,
  ownOrigin: string | null,
): boolean {
  const site = request.header('sec-fetch-site')
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return true
  const origin = request.header('origin')
  if (origin === undefined || origin === ownOrigin) return false
  return !isSameHost(origin, host)
}

function isSameHost(origin: string, host: string): boolean {
  return URL.canParse(origin) && new URL(origin).host === host.toLowerCase()
}
