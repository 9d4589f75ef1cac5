import { createRoute, type RouteConfig } from '@hono/zod-openapi'
import { z } from 'zod'
import { ACTOR_ID_HEADER, ACTOR_ROLE_HEADER, Actor } from '#contract/actor.ts'
import { PROBLEM_MEDIA_TYPE, Problem, type ProblemCode } from '#contract/problem.ts'
import { COMMON_PROBLEMS, type Route } from '#contract/route.ts'
import { PROBLEM_KINDS } from './error-response.ts'

/** Stands once in the document, and every route refers to it. */
const NamedProblem = z.object(Problem.shape).openapi('Problem')

/** Described, not checked here: a missing actor has a problem of its own. */
const ACTOR_PARAMETERS = [
  {
    name: ACTOR_ID_HEADER,
    in: 'header' as const,
    description: 'Who asks. May be left out by a GET.',
    schema: z.toJSONSchema(Actor.shape.id) as { type: 'string' },
  },
  {
    name: ACTOR_ROLE_HEADER,
    in: 'header' as const,
    description: 'In which role. May be left out by a GET.',
    schema: z.toJSONSchema(Actor.shape.role) as { type: 'string' },
  },
]

/** One row of the route table in the words of OpenAPI. */
export function openapiRoute(name: string, route: Route): RouteConfig {
  return createRoute({
    operationId: name,
    method: route.method.toLowerCase() as 'get' | 'post' | 'put' | 'delete',
    path: route.path,
    tags: [route.tag],
    summary: route.summary,
    parameters: ACTOR_PARAMETERS,
    request: {
      ...(route.params && { params: route.params }),
      ...(route.query && { query: route.query }),
      ...(route.body && {
        body: { required: true, content: { 'application/json': { schema: route.body } } },
      }),
    },
    responses: {
      [route.answer.status]: {
        description: route.answer.what,
        content: { [route.answer.mediaType]: { schema: route.answer.schema } },
      },
      ...problemResponses([...COMMON_PROBLEMS, ...route.problems]),
    },
  })
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
