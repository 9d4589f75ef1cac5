import { PROBLEM_MEDIA_TYPE, Problem } from './problem.ts'
import type { Route, RouteOutput } from './route.ts'

/** Thrown for a problem answer; carries it whole, so that a screen can show findings or the current record. */
export class ProblemError extends Error {
  readonly problem: Problem

  constructor(problem: Problem) {
    super(problem.detail)
    this.name = 'ProblemError'
    this.problem = problem
  }
}

/** The part of a fetch `Response` that reading needs. */
export interface AnswerSource {
  readonly status: number
  readonly headers: { get(name: string): string | null }
  json(): Promise<unknown>
  blob(): Promise<Blob>
}

/**
 * Reads the answer of the route: JSON, or the file as a Blob.
 *
 * @throws ProblemError for a problem answer, Error where the answer is not from this server.
 */
export async function readAnswer<R extends Route>(
  route: R,
  answer: AnswerSource,
): Promise<RouteOutput<R>> {
  const mediaType = answer.headers.get('content-type') ?? ''
  if (mediaType.startsWith(PROBLEM_MEDIA_TYPE))
    throw new ProblemError(Problem.parse(await answer.json()))
  const isFile = route.answer.mediaType === 'application/octet-stream'
  const isExpected = isFile || mediaType.startsWith(route.answer.mediaType)
  if (answer.status !== route.answer.status || !isExpected) {
    throw new Error(
      `Expected ${route.answer.status} ${route.answer.mediaType}, got ${answer.status} ${mediaType}.`,
    )
  }
  const content = isFile ? await answer.blob() : await answer.json()
  return route.answer.schema.parse(content) as RouteOutput<R>
}
