import type { Context } from 'hono'
import type { Asker } from '#contract/rights.ts'
import type { ParsedInput, Route, RouteOutput } from '#contract/route.ts'
import type { RouteName, routes } from '#contract/routes.ts'
import type { PreparedAnswer } from './prepared-answers.ts'

/** A file as a handler gives it. */
export interface FileAnswer {
  readonly mediaType: string
  /** Offered when the file is saved; left out where it is only shown. */
  readonly fileName?: string
  readonly content: ReadableStream<Uint8Array> | Uint8Array<ArrayBuffer> | string
  readonly sizeBytes?: number
}

/** A stream for the routes that answer events, a file for those that answer one, else the body, or that as it is sent. */
type Answer<R extends Route> = R['answer']['mediaType'] extends 'text/event-stream'
  ? AsyncIterable<RouteOutput<R>>
  : R['answer']['mediaType'] extends 'application/octet-stream'
    ? FileAnswer
    : RouteOutput<R> | PreparedAnswer

type AskerOf<R extends Route> = R['right'] extends 'anyone' ? Asker | null : Asker

/** The context is for what is not in the table: cookies, and the address that asks. */
export type Handler<Name extends RouteName> = (
  input: ParsedInput<(typeof routes)[Name]>,
  asker: AskerOf<(typeof routes)[Name]>,
  context: Context,
) => Promise<Answer<(typeof routes)[Name]>>

/** A write that is ready to be made. */
export interface Prepared<Written> {
  readonly write: () => Promise<Written>
  /** SHA-256 of the file that came with it. */
  readonly contentHash?: string
  /** Called last, also where the write was refused, failed, or had been made before. */
  readonly release?: (isWritten: boolean) => Promise<void>
}

/** For writes whose reading and checking would keep others from writing for too long. */
export interface TwoStepHandler<Name extends RouteName> {
  readonly prepare: (
    ...given: Parameters<Handler<Name>>
  ) => Promise<Prepared<Answer<(typeof routes)[Name]>>>
}

/** One handler for every row of the route table. */
export type Handlers = { readonly [Name in RouteName]: Handler<Name> | TwoStepHandler<Name> }
