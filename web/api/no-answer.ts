import { ProblemError, readAnswer } from '#contract/read-answer.ts'
import type { Route } from '#contract/route.ts'

/** No answer of the server came: the connection, the server or what lies between failed. */
export class NoAnswerError extends Error {
  override readonly name = 'NoAnswerError'

  constructor(cause?: unknown) {
    super('The server does not answer. Check the connection and try again.', { cause })
  }
}

/** RFC 9110, 15.6.3 to 15.6.5: whoever answers so stands before the server, or the server cannot serve now. */
const AWAY_STATUSES: readonly number[] = [502, 503, 504]

/** Every answer of the server to `/api` carries it; what stands in between does not. */
const OWN_HEADER = 'x-request-id'

/** Whether an answer is the server's own, and not a sign that it is away. */
export function isFromServer({ status, headers }: Pick<Response, 'status' | 'headers'>): boolean {
  return headers.has(OWN_HEADER) && !AWAY_STATUSES.includes(status)
}

/** Whether it is worth trying again later, since the server has not decided anything. */
export function isUnanswered(error: unknown): boolean {
  if (error instanceof NoAnswerError) return true
  return error instanceof ProblemError && AWAY_STATUSES.includes(error.problem.status)
}

/**
 * Reads an answer to a write. One of the server's that this version of the page does not know is
 * given as it came: what was sent is done all the same.
 *
 * @throws ProblemError where the server refuses, NoAnswerError where it is not the server's answer
 */
export async function readOwnAnswer(route: Route, answer: Response): Promise<unknown> {
  if (!answer.ok) {
    await readAnswer(route, answer).catch((error: unknown) => {
      throw error instanceof ProblemError ? error : new NoAnswerError(error)
    })
  }
  if (!isFromServer(answer)) throw new NoAnswerError()
  const content: unknown = await answer.json()
  const read = route.answer.schema.safeParse(content)
  return read.success ? read.data : content
}
