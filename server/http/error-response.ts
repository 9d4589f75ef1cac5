import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import { PROBLEM_MEDIA_TYPE, type Problem, type ProblemCode } from '#contract/problem.ts'
import type { ServerLog } from '../log/server-log.ts'
import { Refusal } from '../services/refusal.ts'

interface ProblemKind {
  readonly status: ContentfulStatusCode
  readonly title: string
}

/** The only place where a code becomes a status. */
export const PROBLEM_KINDS: Readonly<Record<ProblemCode, ProblemKind>> = {
  'malformed-request': { status: 400, title: 'The request is not as the server expects it' },
  'sign-in-needed': { status: 401, title: 'The request needs a person who is signed in' },
  'sign-in-refused': { status: 401, title: 'The sign-in was refused' },
  'too-many-tries': { status: 429, title: 'There were too many tries' },
  'not-allowed': { status: 403, title: 'The role does not allow this' },
  'cross-site': { status: 403, title: 'The request comes from another site' },
  'not-found': { status: 404, title: 'There is no such thing' },
  'method-not-allowed': { status: 405, title: 'The address does not take this method' },
  'stale-version': { status: 409, title: 'The record changed in the meantime' },
  'key-reused': { status: 409, title: 'The key was used for another request' },
  'wrong-state': { status: 409, title: 'The record is not in a state that allows this' },
  'too-large': { status: 413, title: 'The request is too large' },
  'wrong-media-type': { status: 415, title: 'The request must be JSON' },
  'feeder-refused': { status: 422, title: 'The feeder has errors' },
  'not-converged': { status: 422, title: 'The voltages could not be solved' },
  unavailable: { status: 503, title: 'The server cannot do this at the moment' },
  interrupted: { status: 503, title: 'The work was cut short' },
  internal: { status: 500, title: 'The server failed' },
}

/** Answers any error as a problem after RFC 9457; what is not a refusal goes to the log as a fault. */
export function errorResponse(context: Context, error: unknown, log: ServerLog): Response {
  const refusal = refusalOf(error)
  const requestId = String(context.get('requestId'))
  if (refusal.code === 'internal') log.fault(error, { requestId })
  const { status, title } = PROBLEM_KINDS[refusal.code]
  const { findings, faults, current, retryAfterS } = refusal.extras
  const problem: Problem = {
    type: `urn:crossarm:problem:${refusal.code}`,
    title,
    status,
    detail: refusal.message,
    code: refusal.code,
    ...(findings && { findings: [...findings] }),
    ...(faults && { faults: [...faults] }),
    ...(current !== undefined && { current }),
    requestId,
  }
  const headers = {
    'content-type': PROBLEM_MEDIA_TYPE,
    'cache-control': 'no-store',
    ...(retryAfterS !== undefined && { 'retry-after': String(retryAfterS) }),
  }
  return context.body(JSON.stringify(problem), status, headers)
}

function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error
  if (error instanceof HTTPException && error.status === 415) {
    return new Refusal('wrong-media-type', 'Send the body as application/json.')
  }
  if (error instanceof HTTPException && error.status < 500) {
    return new Refusal('malformed-request', error.message)
  }
  return new Refusal('internal', 'Something went wrong in the server. Its log says more.')
}
