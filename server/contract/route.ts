import type { z } from 'zod'
import type { ProblemCode } from './problem.ts'

export interface RouteAnswer {
  readonly status: 200 | 201 | 202
  readonly what: string
  readonly mediaType: 'application/json' | 'text/event-stream'
  /** Of the body; of one event where the answer is a stream. */
  readonly schema: z.ZodType
}

/** One row of the route table: all that server, screens and command line need to agree on. */
export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE'
  /** Path with `{name}` for each member of `params`. */
  readonly path: `/api/${string}`
  readonly tag: string
  readonly summary: string
  readonly params?: z.ZodObject
  readonly query?: z.ZodObject
  readonly body?: z.ZodType
  readonly answer: RouteAnswer
  /** Problems that this route can answer beside those any route can (see COMMON_PROBLEMS). */
  readonly problems: readonly ProblemCode[]
}

export const COMMON_PROBLEMS: readonly ProblemCode[] = [
  'malformed-request',
  'cross-site',
  'internal',
]

type Part<Name extends string, Schema> = Schema extends z.ZodType
  ? { [Key in Name]: z.input<Schema> }
  : unknown
type QueryPart<Schema> = Schema extends z.ZodType ? { query?: z.input<Schema> } : unknown

/** What a caller gives: `params`, `query` and `body`, each only where the route has it. */
export type RouteInput<R extends Route> = Part<'params', R['params']> &
  QueryPart<R['query']> &
  Part<'body', R['body']>

/** What a handler gets: the same after parsing, defaults filled in. */
export interface ParsedInput<R extends Route> {
  readonly params: R['params'] extends z.ZodType ? z.output<R['params']> : undefined
  readonly query: R['query'] extends z.ZodType ? z.output<R['query']> : undefined
  readonly body: R['body'] extends z.ZodType ? z.output<R['body']> : undefined
}

/** Body of the good answer. */
export type RouteOutput<R extends Route> = z.output<R['answer']['schema']>
