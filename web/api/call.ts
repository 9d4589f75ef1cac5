import { ACTING_ROLE_HEADER, IDEMPOTENCY_HEADER } from '#contract/actor.ts'
import { type BuiltRequest, buildRequest } from '#contract/build-request.ts'
import type { ProblemCode } from '#contract/problem.ts'
import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Right } from '#contract/rights.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { actingRole } from './actor.ts'
import { keyOfWrite, letGoOfKey } from './repeat-keys.ts'
import { askForMeAgain, knownMe, noteSessionEnded, signedInAgain } from './signed-in.ts'

/** Sends one request; throws an Error in plain words where no answer came. */
export type Send = (request: BuiltRequest, signal?: AbortSignal) => Promise<Response>

/**
 * Asks the server by the name of a route. Where the session has ended, waits until the same
 * person has signed in again and then goes on, so that nothing has to be done twice.
 *
 * @param send how it is sent, where its progress is to be told
 * @throws ProblemError with the server's reasons, or an Error in plain words where no answer came.
 */
export async function call<Name extends RouteName>(
  name: Name,
  input: RouteInput<(typeof routes)[Name]>,
  signal?: AbortSignal,
  send: Send = sendRequest,
): Promise<RouteOutput<(typeof routes)[Name]>> {
  const route = routes[name]
  const ask = async () => readAnswer(route, await askOnce(route, input, send, signal))
  try {
    return await ask()
  } catch (error) {
    if (codeOf(error) === 'not-allowed') askForMeAgain()
    if (codeOf(error) !== 'sign-in-needed') throw error
    noteSessionEnded()
    if (name === 'getMe' || !(await signedInAgain(signal))) throw error
    return ask()
  }
}

async function askOnce<R extends Route>(
  route: R,
  input: RouteInput<R>,
  sendOnce: Send,
  signal?: AbortSignal,
): Promise<Response> {
  const key = isWrite(route) ? keyOfWrite(route, input) : null
  const me = knownMe()
  const request = buildRequest(route, input, {
    ...(me && route.right !== OWN && { [ACTING_ROLE_HEADER]: actingRole(me.roles, route.right) }),
    ...(key !== null && { [IDEMPOTENCY_HEADER]: key }),
  })
  const send = () => sendOnce(request, signal)
  const answer = await (key === null ? send() : withOneRepeat(send, signal))
  // A fault on the way, as of a proxy, does not say whether the write was done.
  if (key !== null && answer.status < 500) letGoOfKey(route, input)
  return answer
}

/** Whoever has a role may; asked without one, the answer comes also after the roles were changed. */
const OWN: Right = 'use an account of one’s own'

const REPEAT_AFTER_MS = 700

/** A write whose answer was lost is sent once more; its key keeps it from being done twice. */
async function withOneRepeat(
  send: () => Promise<Response>,
  signal?: AbortSignal,
): Promise<Response> {
  try {
    return await send()
  } catch (error) {
    if (signal?.aborted) throw error
    await new Promise((resolve) => window.setTimeout(resolve, REPEAT_AFTER_MS))
    return send()
  }
}

function sendRequest(request: BuiltRequest, signal?: AbortSignal): Promise<Response> {
  const { method, path, headers, body } = request
  const options: RequestInit = { method, headers, body, signal, credentials: 'same-origin' }
  return fetch(path, options).catch((cause: unknown) => {
    if (signal?.aborted) throw cause
    throw new Error('The server does not answer. Check the connection and try again.', { cause })
  })
}

/** Solving voltages is asked with a body, but changes nothing. */
function isWrite({ method, right }: Route): boolean {
  return method !== 'GET' && right !== 'anyone' && right !== 'see feeders and solve voltages'
}

function codeOf(error: unknown): ProblemCode | null {
  return error instanceof ProblemError ? error.problem.code : null
}
