import { createRoute, type RouteConfig } from '@hono/zod-openapi'
import { z } from 'zod'
import { ACTING_ROLE_HEADER, IDEMPOTENCY_HEADER, IdempotencyKey, Role } from '#contract/actor.ts'
import { PROBLEM_MEDIA_TYPE, Problem, type ProblemCode } from '#contract/problem.ts'
import {
  BODY_PROBLEMS,
  COMMON_PROBLEMS,
  type Route,
  SIGNED_IN_PROBLEMS,
  takesKey,
  WRITE_PROBLEMS,
} from '#contract/route.ts'
import { SESSION_COOKIE } from '../people/auth.ts'
import { PROBLEM_KINDS } from './error-response.ts'

/** Stands once in the document, and every route refers to it. */
const NamedProblem = z.object(Problem.shape).openapi('Problem')

const HEADERS = {
  role: {
    name: ACTING_ROLE_HEADER,
    in: 'header' as const,
    description: 'In which of one’s roles. The first of them where it is left out.',
    schema: z.toJSONSchema(Role) as { type: 'string' },
  },
  key: {
    name: IDEMPOTENCY_HEADER,
    in: 'header' as const,
    description: 'Makes the request safe to repeat: the same key gives the same answer.',
    schema: z.toJSONSchema(IdempotencyKey) as { type: 'string' },
  },
}

/** The names by which each route refers to how its asker is known. */
export const SECURITY_SCHEMES = {
  session: {
    type: 'apiKey',
    in: 'cookie',
    name: SESSION_COOKIE,
    description: 'Set by signing in.',
  },
  token: { type: 'http', scheme: 'bearer', description: 'A token of a machine.' },
} as const

/** One row of the route table in the words of OpenAPI. */
export function openapiRoute(name: string, route: Route): RouteConfig {
  return createRoute({
    operationId: name,
    method: route.method.toLowerCase() as 'get' | 'post' | 'put' | 'delete',
    path: route.path,
    tags: [route.tag],
    summary: route.summary,
    parameters: headersOf(route),
    security: route.right === 'anyone' ? [] : [{ session: [] }, { token: [] }],
    request: {
      ...(route.params && { params: route.params }),
      ...(route.query && { query: route.query }),
      ...(route.body && {
        body: { required: true, content: { 'application/json': { schema: route.body } } },
      }),
      ...(route.takesFile && {
        body: { required: true, content: { 'application/octet-stream': { schema: {} } } },
      }),
    },
    responses: {
      [route.answer.status]: {
        description: route.answer.what,
        content: { [route.answer.mediaType]: { schema: route.answer.schema } },
      },
      ...problemResponses(problemsOf(route)),
    },
  })
}

function headersOf(route: Route) {
  const role = route.right === 'anyone' ? [] : [HEADERS.role]
  return takesKey(route) ? [...role, HEADERS.key] : role
}

function problemsOf(route: Route): readonly ProblemCode[] {
  const all = [
    ...COMMON_PROBLEMS,
    ...(route.body || route.takesFile ? BODY_PROBLEMS : []),
    ...(route.right === 'anyone' ? [] : SIGNED_IN_PROBLEMS),
    ...(takesKey(route) ? WRITE_PROBLEMS : []),
    ...route.problems,
  ]
  return [...new Set(all)]
}

/** One answer per status, naming every code that it can carry. */
function problemResponses(codes: readonly ProblemCode[]): RouteConfig['responses'] {
  const byStatus = new Map<number, ProblemCode[]>()
  for (const code of codes) {
    const { status } = PROBLEM_KINDS[code]
    byStatus.set(status, [...(byStatus.get(status) ?? []), code])
  }
  return Object.fromEntries(
    [...byStatus].map(([status, sameStatus]) => [
      status,
      {
        description: sameStatus.map((code) => `${code}: ${PROBLEM_KINDS[code].title}.`).join(' '),
        content: { [PROBLEM_MEDIA_TYPE]: { schema: NamedProblem } },
      },
    ]),
  )
}
