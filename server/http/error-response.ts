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
  'key-reused': { status: 422, title: 'The key was used for another request' },
  'wrong-state': { status: 409, title: 'The record is not in a state that allows this' },
  'too-large': { status: 413, title: 'The request is too large' },
  'wrong-media-type': { status: 415, title: 'The request must be JSON' },
  'feeder-refused': { status: 422, title: 'The feeder has errors' },
  'not-converged': { status: 422, title: 'The voltages could not be solved' },
  unavailable: { status: 503, title: 'The server cannot do this at the moment' },
  interrupted: { status: 503, title: 'The work was cut short' },
  internal: { status: 500, title: 'The server failed' },
}

/** Why something that the server needs cannot serve for the time being; null for any other error. */
export type WhyUnavailable = (error: unknown) => string | null

/** Answers any error as a problem after RFC 9457; what is not a refusal goes to the log as a fault. */
export function errorResponse(
  context: Context,
  error: unknown,
  log: ServerLog,
  whyUnavailable: WhyUnavailable,
): Response {
  const refusal = refusalOf(error, whyUnavailable)
  const requestId = String(context.get('requestId'))
  if (!(error instanceof Refusal) && refusal.code in FAULTS) log.fault(error, { requestId })
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
    ...(isLeftUnread(context) && { connection: 'close' }),
  }
  return context.body(JSON.stringify(problem), status, headers)
}

/** The rest of so small a body is passed over; after a larger one the connection cannot be used again. */
const PASSED_OVER_BYTES = 64 * 1024

function isLeftUnread({ req }: Context): boolean {
  const isLarge =
    req.header('transfer-encoding') !== undefined ||
    Number(req.header('content-length') ?? 0) > PASSED_OVER_BYTES
  return isLarge && !req.raw.bodyUsed
}

/** Codes whose cause is looked for in the log. */
const FAULTS = { internal: true, unavailable: true }

function refusalOf(error: unknown, whyUnavailable: WhyUnavailable): Refusal {
  if (error instanceof Refusal) return error
  const why = whyUnavailable(error)
  if (why !== null) return new Refusal('unavailable', why, { retryAfterS: 5 })
  if (error instanceof HTTPException && error.status === 415) {
    return new Refusal('wrong-media-type', 'Send the body as application/json.')
  }
  if (error instanceof HTTPException && error.status < 500) {
    return new Refusal('malformed-request', error.message)
  }
  return new Refusal('internal', 'Something went wrong in the server. Its log says more.')
}
