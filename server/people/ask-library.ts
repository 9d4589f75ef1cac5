import type { AccountStep } from '../services/people-ports.ts'
import { endSessionOf } from './begin-session.ts'
import { noteOwnStep } from './note-own-step.ts'
import type { PeoplePorts } from './people-ports.ts'
import { readVisit } from './visit.ts'

/**
 * Hands a request on to the library of sign-in; where it signs in, the session before it ends.
 *
 * @param step what is noted of the person where the library did as it was asked
 */
export async function askLibrary(
  ports: PeoplePorts,
  request: Request,
  step?: AccountStep,
): Promise<Response> {
  const { headers } = request
  const answer = await ports.auth.handler(request)
  const { name } = await ports.cookie()
  const begins = answer.headers.getSetCookie().some((cookie) => cookie.startsWith(`${name}=`))
  if (begins) await endSessionOf(ports, headers)
  if (step && answer.ok) await noteStepOf(ports, headers, step)
  return answer
}

async function noteStepOf(ports: PeoplePorts, headers: Headers, step: AccountStep): Promise<void> {
  const cookies = headers.get('cookie')
  const visit = await readVisit(ports, { cookies, authorization: null, actingRole: null })
  if (visit && 'session' in visit) await noteOwnStep(ports, visit, step)
}
