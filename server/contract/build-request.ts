import type { Route, RouteInput } from './route.ts'

export interface BuiltRequest {
  readonly method: Route['method']
  /** Path and query, to be set behind the server's address. */
  readonly path: string
  readonly headers: Readonly<Record<string, string>>
  /** JSON text or the file, for the routes that take one. */
  readonly body?: string | Blob
}

interface LooseInput {
  readonly params?: Readonly<Record<string, unknown>>
  readonly query?: Readonly<Record<string, unknown>>
  readonly body?: unknown
  readonly file?: Blob
}

/**
 * Turns a row of the table and its input into what `fetch` takes.
 *
 * @param headers beside the media type: acting role, key of a repeatable write, token
 */
export function buildRequest<R extends Route>(
  route: R,
  input: RouteInput<R>,
  headers: Readonly<Record<string, string>> = {},
): BuiltRequest {
  const { params = {}, query = {}, body, file } = input as LooseInput
  const path = fillPath(route.path, params) + queryText(query)
  const { method } = route
  if (route.takesFile) {
    const type = file?.type || 'application/octet-stream'
    return { method, path, headers: { ...headers, 'content-type': type }, body: file }
  }
  if (!route.body) return { method, path, headers }
  const type = 'application/json'
  return { method, path, headers: { ...headers, 'content-type': type }, body: JSON.stringify(body) }
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
