import type { Me, SignInAnswer } from '#contract/account.ts'
import { type Asking, headersWithout, type WithCookies } from './asking.ts'
import { endSessionOf } from './begin-session.ts'
import { meOfPerson } from './me.ts'
import type { PeoplePorts } from './people-ports.ts'
import { codeOfRefusal, signInRefused } from './refused.ts'

interface EmailAndPassword {
  readonly email: string
  readonly password: string
}

/**
 * Signs in with a password, or asks for the second factor.
 *
 * @throws Refusal `sign-in-refused` or `too-many-tries`
 */
export async function signIn(
  ports: PeoplePorts,
  { email, password }: EmailAndPassword,
  asking: Asking,
): Promise<WithCookies<SignInAnswer>> {
  const { name } = await ports.cookie()
  const headers = headersWithout(asking.headers, name)
  const door = { account: email, address: asking.address }
  const entered = await ports.limits.guard(door, () =>
    ports.auth.api
      .signInEmail({ body: { email, password }, headers, returnHeaders: true })
      .catch((error: unknown) => {
        codeOfRefusal(error)
        throw signInRefused()
      }),
  )
  await endSessionOf(ports, asking.headers)
  const cookies = entered.headers.getSetCookie()
  if ('twoFactorRedirect' in entered.response) {
    return { answer: { state: 'second-factor-needed' }, cookies }
  }
  const me = await meOf(ports, entered.response.user.id)
  return { answer: { state: 'signed-in', me }, cookies }
}

/** Of the person who just signed in. */
export async function meOf(ports: PeoplePorts, personId: string): Promise<Me> {
  const person = await ports.store.people.find(personId)
  if (!person) throw signInRefused()
  return meOfPerson(ports, person)
}
