import { endSessionOf } from './begin-session.ts'
import type { PeoplePorts } from './people-ports.ts'

/** Hands a request on to the library of sign-in; where it signs in, the session before it ends. */
export async function askLibrary(ports: PeoplePorts, request: Request): Promise<Response> {
  const answer = await ports.auth.handler(request)
  const { name } = await ports.cookie()
  const begins = answer.headers.getSetCookie().some((cookie) => cookie.startsWith(`${name}=`))
  if (begins) await endSessionOf(ports, request.headers)
  return answer
}
