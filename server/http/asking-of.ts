import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context } from 'hono'
import type { Asking, WithCookies } from '../people/asking.ts'

/**
 * What signing in needs of a request.
 *
 * @param origin as people reach the server; with one, a proxy stands before it and says who asks
 */
export function askingOf(context: Context, origin: string | null): Asking {
  return {
    headers: context.req.raw.headers,
    address:
      (origin !== null && handedOnFor(context)) || (getConnInfo(context).remote.address ?? ''),
    origin: origin ?? new URL(context.req.url).origin,
  }
}

/** The last one is what the nearest proxy has seen; those before it anybody may have written. */
function handedOnFor(context: Context): string | undefined {
  return context.req.header('x-forwarded-for')?.split(',').at(-1)?.trim()
}

/** Sends the cookies and gives the answer. */
export function answerOf<Answer>(context: Context, given: WithCookies<Answer>): Answer {
  sendCookies(context, given.cookies)
  return given.answer
}

export function sendCookies(context: Context, cookies: readonly string[]): void {
  for (const cookie of cookies) context.header('set-cookie', cookie, { append: true })
}
