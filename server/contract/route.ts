import type { z } from 'zod'
import type { ProblemCode } from './problem.ts'
import type { Right } from './rights.ts'

/** JSON, a stream of events, or a file whose own media type the handler says. */
export type AnswerMediaType = 'application/json' | 'text/event-stream' | 'application/octet-stream'

export interface RouteAnswer {
  readonly status: 200 | 201 | 202
  readonly what: string
  readonly mediaType: AnswerMediaType
  /** Of the body; of one event where the answer is a stream; of nothing where it is a file. */
  readonly schema: z.ZodType
}

/** One row of the route table: all that server, screens and command line need to agree on. */
export interface Route {
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE'
  /** Path with `{name}` for each member of `params`. */
  readonly path: `/api/${string}`
  readonly tag: string
  readonly summary: string
  /** What the asker must be allowed to do; `anyone` needs no sign-in. */
  readonly right: Right | 'anyone'
  readonly params?: z.ZodObject
  readonly query?: z.ZodObject
  readonly body?: z.ZodType
  /** Most bytes of a JSON body, where more than usual may come (see USUAL_BODY_BYTES). */
  readonly mostBodyBytes?: number
  /** The body is a file, taken as a stream; most bytes that it may hold. */
  readonly takesFile?: { readonly mostBytes: number }
  /** A write that takes no key for repeating it: it changes nothing, or is waited for by others. */
  readonly isKeyless?: true
  readonly answer: RouteAnswer
  /** Problems that this route can answer beside those any route can (see COMMON_PROBLEMS). */
  readonly problems: readonly ProblemCode[]
}

/** Most bytes of a JSON body, unless the row of the table says otherwise. */
export const USUAL_BODY_BYTES = 256 * 1024

export const COMMON_PROBLEMS: readonly ProblemCode[] = [
  'malformed-request',
  'cross-site',
  'internal',
  'unavailable',
]

/** Problems of the routes that take a body. */
export const BODY_PROBLEMS: readonly ProblemCode[] = ['too-large', 'wrong-media-type']

/** Problems of the routes that are not for anyone. */
export const SIGNED_IN_PROBLEMS: readonly ProblemCode[] = ['sign-in-needed', 'not-allowed']

/** Their answers hold secrets that are shown once, so none is kept to be given again. */
const TAGS_WITH_SECRETS: readonly string[] = ['account', 'people']

/** Whether the same request may be sent again under its key without doing anything twice. */
export function takesKey({ method, tag, isKeyless }: Route): boolean {
  return method !== 'GET' && isKeyless !== true && !TAGS_WITH_SECRETS.includes(tag)
}

/** Problems of the routes that take such a key. */
export const WRITE_PROBLEMS: readonly ProblemCode[] = ['key-reused']

type Part<Name extends string, Schema> = Schema extends z.ZodType
  ? { [Key in Name]: z.input<Schema> }
  : unknown
type QueryPart<Schema> = Schema extends z.ZodType ? { query?: z.input<Schema> } : unknown
type FilePart<Takes> = Takes extends object ? { file: Blob } : unknown

/** What a caller gives: `params`, `query`, `body` and `file`, each only where the route has it. */
export type RouteInput<R extends Route> = Part<'params', R['params']> &
  QueryPart<R['query']> &
  Part<'body', R['body']> &
  FilePart<R['takesFile']>

/** What a handler gets: the same after parsing, defaults filled in. */
export interface ParsedInput<R extends Route> {
  readonly params: R['params'] extends z.ZodType ? z.output<R['params']> : undefined
  readonly query: R['query'] extends z.ZodType ? z.output<R['query']> : undefined
  readonly body: R['body'] extends z.ZodType ? z.output<R['body']> : undefined
  readonly file: R['takesFile'] extends object ? ReadableStream<Uint8Array> : undefined
}

/** Body of the good answer. */
export type RouteOutput<R extends Route> = z.output<R['answer']['schema']>
