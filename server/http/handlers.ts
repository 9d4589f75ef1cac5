import type { Actor } from '#contract/actor.ts'
import type { ParsedInput, Route, RouteOutput } from '#contract/route.ts'
import type { RouteName, routes } from '#contract/routes.ts'

/** A stream for the routes that answer events, else the body of the answer. */
type Answer<R extends Route> = R['answer']['mediaType'] extends 'text/event-stream'
  ? AsyncIterable<RouteOutput<R>>
  : RouteOutput<R>

export type Handler<Name extends RouteName> = (
  input: ParsedInput<(typeof routes)[Name]>,
  actor: Actor,
) => Promise<Answer<(typeof routes)[Name]>>

/** One handler for every row of the route table. */
export type Handlers = { readonly [Name in RouteName]: Handler<Name> }
