import type { StoredPerson } from '../services/people-ports.ts'
import { Refusal } from '../services/refusal.ts'
import type { Asking, WithCookies } from './asking.ts'
import { noteOwnStep } from './note-own-step.ts'
import type { PeoplePorts } from './people-ports.ts'
import { codeOfRefusal } from './refused.ts'
import type { PersonVisit } from './visit.ts'

export function wrongPassword(): Refusal {
  return new Refusal('sign-in-refused', 'The password is not right.')
}

/** @throws Refusal `wrong-state` for a person who comes in some other way */
export async function refuseWithoutPassword(
  { store }: PeoplePorts,
  { id, isDemo }: StoredPerson,
): Promise<void> {
  if (!isDemo && (await store.people.hasPassword(id))) return
  const why = isDemo
    ? 'The people of the demo have no password.'
    : 'You sign in without a password.'
  throw new Refusal('wrong-state', why)
}

interface PasswordChange {
  readonly current: string
  readonly next: string
}

/** Ends every other session. @throws Refusal `sign-in-refused`, `too-many-tries` or `wrong-state` */
export async function changePassword(
  ports: PeoplePorts,
  visit: PersonVisit,
  { current, next }: PasswordChange,
  { headers, address }: Asking,
): Promise<WithCookies<{ done: true }>> {
  const { person } = visit
  await refuseWithoutPassword(ports, person)
  const body = { currentPassword: current, newPassword: next, revokeOtherSessions: true }
  const changed = await ports.limits.guard({ account: person.email, address }, () =>
    ports.auth.api
      .changePassword({ body, headers, returnHeaders: true })
      .catch((error: unknown) => {
        codeOfRefusal(error)
        throw wrongPassword()
      }),
  )
  await noteOwnStep(ports, visit, 'password-changed')
  return { answer: { done: true }, cookies: changed.headers.getSetCookie() }
}
