import { buildRequest } from '#contract/build-request.ts'
import { readAnswer } from '#contract/read-answer.ts'
import type { RouteInput, RouteOutput } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { currentActor } from './actor.ts'

/**
 * Asks the server by the name of a route.
 *
 * @throws ProblemError with the server's reasons, or an Error in plain words where no answer came.
 */
export async function call<Name extends RouteName>(
  name: Name,
  input: RouteInput<(typeof routes)[Name]>,
  signal?: AbortSignal,
): Promise<RouteOutput<(typeof routes)[Name]>> {
  const route = routes[name]
  const { method, path, headers, body } = buildRequest(route, input, currentActor())
  const answer = await fetch(path, { method, headers, body, signal }).catch((cause: unknown) => {
    if (signal?.aborted) throw cause
    throw new Error('The server does not answer. Check the connection and try again.', { cause })
  })
  return readAnswer(route, answer)
}
