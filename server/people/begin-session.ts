import type { Me } from '#contract/account.ts'
import type { StoredPerson } from '../services/people-ports.ts'
import { Refusal } from '../services/refusal.ts'
import type { Asking, WithCookies } from './asking.ts'
import { meOfPerson } from './me.ts'
import type { PeoplePorts } from './people-ports.ts'
import { readVisit } from './visit.ts'

/** Signs a person in whose right to it was found otherwise, and ends the session that was there. */
export async function beginSession(
  ports: PeoplePorts,
  person: StoredPerson,
  { headers }: Asking,
): Promise<WithCookies<Me>> {
  await endSessionOf(ports, headers)
  const begun = await ports.auth.api.beginSession({
    body: { personId: person.id },
    headers,
    returnHeaders: true,
  })
  if (!begun.response.begun) throw new Refusal('sign-in-refused', 'The account is closed.')
  return { answer: await meOfPerson(ports, person), cookies: begun.headers.getSetCookie() }
}

/** A browser holds one session; the one before it must not live on unseen. */
export async function endSessionOf(ports: PeoplePorts, headers: Headers): Promise<void> {
  const cookies = headers.get('cookie')
  const visit = await readVisit(ports, { cookies, authorization: null, actingRole: null })
  if (visit && 'session' in visit) await ports.store.sessions.end(visit.person.id, visit.session.id)
}
