import { ACTING_ROLE_HEADER, IDEMPOTENCY_HEADER } from '#contract/actor.ts'
import { type BuiltRequest, buildRequest } from '#contract/build-request.ts'
import type { Right } from '#contract/rights.ts'
import type { Route, RouteInput } from '#contract/route.ts'
import { noteAnswer, noteNoAnswer } from '../device/connection.ts'
import { actingRole } from './actor.ts'
import { isFromServer, NoAnswerError } from './no-answer.ts'
import { knownMe } from './signed-in.ts'

/** Sends one request. @throws NoAnswerError where no answer came */
export type Send = (request: BuiltRequest, signal?: AbortSignal) => Promise<Response>

/** Whoever has a role may; asked without one, the answer comes also after the roles were changed. */
const OWN: Right = 'use an account of one’s own'

/** What goes out for a row of the table, in the role of the person that may do it. */
export function requestOf<R extends Route>(
  route: R,
  input: RouteInput<R>,
  key: string | null,
): BuiltRequest {
  const me = knownMe()
  return buildRequest(route, input, {
    ...(me && route.right !== OWN && { [ACTING_ROLE_HEADER]: actingRole(me.roles, route.right) }),
    ...(key !== null && { [IDEMPOTENCY_HEADER]: key }),
  })
}

/**
 * Sends a request once and notes whether the server answered.
 *
 * @throws NoAnswerError where no answer came
 */
export async function sendNoted(
  request: BuiltRequest,
  send: Send,
  signal?: AbortSignal,
): Promise<Response> {
  const sentAtMs = Date.now()
  try {
    const answer = await send(request, signal)
    if (isFromServer(answer)) noteAnswer(answer.headers, sentAtMs)
    else noteNoAnswer()
    return answer
  } catch (error) {
    if (!signal?.aborted) noteNoAnswer()
    throw error
  }
}

export function sendRequest(request: BuiltRequest, signal?: AbortSignal): Promise<Response> {
  const { method, path, headers, body } = request
  const options: RequestInit = { method, headers, body, signal, credentials: 'same-origin' }
  return fetch(path, options).catch((cause: unknown) => {
    if (signal?.aborted) throw cause
    throw new NoAnswerError(cause)
  })
}
