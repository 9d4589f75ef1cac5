import type { ProblemCode } from '#contract/problem.ts'
import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Route, RouteInput, RouteOutput } from '#contract/route.ts'
import { type RouteName, routes } from '#contract/routes.ts'
import { dropAllOf } from '../device/copies.ts'
import { keepingOf } from '../device/kept-routes.ts'
import { dropKeptOf } from '../device/kept-values.ts'
import { lastPerson, notePerson } from '../device/person.ts'
import { askOrCopy } from './ask-or-copy.ts'
import { requestOf, type Send, sendNoted, sendRequest } from './ask-server.ts'
import { keyOfWrite, letGoOfKey } from './repeat-keys.ts'
import { askForMeAgain, noteSessionEnded, signedInAgain } from './signed-in.ts'

/**
 * Asks the server by the name of a route. Where the session has ended, waits until the same
 * person has signed in again and then goes on, so that nothing has to be done twice. Where no
 * answer comes and the device holds a copy of one, gives that.
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
  if (keepingOf(name) !== null) {
    return goingOnAfterSignIn(name, () => askOrCopy(name, input, signal), signal)
  }
  const route = routes[name]
  const ask = async () => readAnswer(route, await askOnce(route, input, send, signal))
  const answer = await goingOnAfterSignIn(name, ask, signal)
  if (name === 'signOut') await takeOffThePerson()
  return answer
}

/** Where the session has ended, waits until the same person has signed in, and then asks again. */
export async function goingOnAfterSignIn<Answer>(
  name: RouteName,
  ask: () => Promise<Answer>,
  signal?: AbortSignal,
): Promise<Answer> {
  try {
    return await ask()
  } catch (error) {
    if (codeOf(error) === 'not-allowed') askForMeAgain()
    if (codeOf(error) !== 'sign-in-needed') throw error
    noteSessionEnded()
    if (name === 'getMe') await notePerson(null)
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
  const request = requestOf(route, input, key)
  const send = () => sendNoted(request, sendOnce, signal)
  const answer = await (key === null ? send() : withOneRepeat(send, signal))
  // A fault on the way, as of a proxy, does not say whether the write was done.
  if (key !== null && answer.status < 500) letGoOfKey(route, input)
  return answer
}

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
    await new Promise((resolve) => setTimeout(resolve, REPEAT_AFTER_MS))
    return send()
  }
}

/** Whoever uses the device next finds nothing of the person; what was not sent waits for them, unseen. */
async function takeOffThePerson(): Promise<void> {
  const personId = await lastPerson()
  if (personId !== null) {
    await dropAllOf(personId)
    dropKeptOf(personId)
  }
  await notePerson(null)
}

/** Solving voltages is asked with a body, but changes nothing. */
function isWrite({ method, right }: Route): boolean {
  return method !== 'GET' && right !== 'anyone' && right !== 'see feeders and solve voltages'
}

function codeOf(error: unknown): ProblemCode | null {
  return error instanceof ProblemError ? error.problem.code : null
}
