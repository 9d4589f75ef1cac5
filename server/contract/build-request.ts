import { ACTOR_ID_HEADER, ACTOR_ROLE_HEADER, type Actor } from './actor.ts'
import type { Route, RouteInput } from './route.ts'

export interface BuiltRequest {
  readonly method: Route['method']
  /** Path and query, to be set behind the server's address. */
  readonly path: string
  readonly headers: Readonly<Record<string, string>>
  /** JSON text, for the routes that take a body. */
  readonly body?: string
}

interface LooseInput {
  readonly params?: Readonly<Record<string, unknown>>
  readonly query?: Readonly<Record<string, unknown>>
  readonly body?: unknown
}

/** Turns a row of the table and its input into what `fetch` takes. */
export function buildRequest<R extends Route>(
  route: R,
  input: RouteInput<R>,
  actor: Actor,
): BuiltRequest {
  const { params = {}, query = {}, body } = input as LooseInput
  const headers = { [ACTOR_ID_HEADER]: actor.id, [ACTOR_ROLE_HEADER]: actor.role }
  const path = fillPath(route.path, params) + queryText(query)
  if (!route.body) return { method: route.method, path, headers }
  return {
    method: route.method,
    path,
    headers: { ...headers, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }
}

function fillPath(path: string, params: Readonly<Record<string, unknown>>): string {
  return path.replace(/\{(\w+)\}/g, (_, name: string) => {
    if (params[name] === undefined) throw new Error(`Expected a value for {${name}} of ${path}.`)
    return encodeURIComponent(String(params[name]))
  })
}

function queryText(query: Readonly<Record<string, unknown>>): string {
  const pairs = Object.entries(query).filter(([, value]) => value !== undefined)
  const text = new URLSearchParams(pairs.map(([name, value]) => [name, String(value)])).toString()
  return text && `?${text}`
}
