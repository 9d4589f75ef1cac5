import type { Asking, WithCookies } from './asking.ts'
import type { PeoplePorts } from './people-ports.ts'

/** Ends the session, if there is one, and has the browser forget its cookies. */
export async function signOut(
  { auth }: PeoplePorts,
  { headers }: Asking,
): Promise<WithCookies<{ done: true }>> {
  const ended = await auth.api.signOut({ headers, returnHeaders: true })
  return { answer: { done: true }, cookies: ended.headers.getSetCookie() }
}
