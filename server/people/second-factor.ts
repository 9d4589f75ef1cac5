import type { Me, SecondFactorStart } from '#contract/account.ts'
import { Refusal } from '../services/refusal.ts'
import { type Asking, headersWithout, type WithCookies } from './asking.ts'
import { noteOwnStep } from './note-own-step.ts'
import { refuseWithoutPassword, wrongPassword } from './password.ts'
import type { PeoplePorts } from './people-ports.ts'
import { codeOfRefusal } from './refused.ts'
import { meOf } from './sign-in.ts'
import type { PersonVisit } from './visit.ts'

/** Six digits come from an authenticator (RFC 6238), anything else from the codes kept for a lost one. */
const AUTHENTICATOR_CODE = /^\d{6}$/

/** A code of an authenticator fits for its own 30 s and for the 30 s on either side. */
const CODE_FITS_MS = 90_000

/**
 * Finishes a sign-in that asked for the second factor.
 *
 * @throws Refusal `sign-in-refused` or `too-many-tries`
 */
export async function giveSecondFactor(
  ports: PeoplePorts,
  code: string,
  asking: Asking,
): Promise<WithCookies<Me>> {
  const { name } = await ports.cookie()
  const headers = headersWithout(asking.headers, name)
  return ports.limits.guard({ address: asking.address }, async () => {
    const given = await verify(ports, code, headers)
    const personId = given.response.user.id
    if (!(await isFreshCode(ports, personId, code))) {
      const [session] = await ports.store.sessions.listOf(personId)
      if (session) await ports.store.sessions.end(personId, session.id)
      throw new Refusal('sign-in-refused', 'The code was used before. Wait for the next one.')
    }
    return { answer: await meOf(ports, personId), cookies: given.headers.getSetCookie() }
  })
}

function verify({ auth }: PeoplePorts, code: string, headers: Headers) {
  const input = { body: { code }, headers, returnHeaders: true } as const
  const verified = AUTHENTICATOR_CODE.test(code)
    ? auth.api.verifyTOTP(input)
    : auth.api.verifyBackupCode(input)
  return verified.catch((error: unknown) => {
    throw refusalOfCode(codeOfRefusal(error))
  })
}

/** RFC 6238, 5.2: a code is taken once only. */
function isFreshCode({ limits }: PeoplePorts, personId: string, code: string): Promise<boolean> {
  return limits.isFirst(`${personId} ${code}`, CODE_FITS_MS)
}

const LOCKED_S = 15 * 60

function refusalOfCode(code: string): Refusal {
  switch (code) {
    case 'ACCOUNT_TEMPORARILY_LOCKED':
      return new Refusal('too-many-tries', 'There were too many wrong codes. Wait 15 minutes.', {
        retryAfterS: LOCKED_S,
      })
    case 'INVALID_TWO_FACTOR_COOKIE':
    case 'TOO_MANY_ATTEMPTS_REQUEST_NEW_CODE':
      return new Refusal('sign-in-refused', 'The sign-in took too long. Begin again.')
    default:
      return new Refusal('sign-in-refused', 'The code does not fit.')
  }
}

/** @throws Refusal `sign-in-refused`, `too-many-tries` or `wrong-state` */
export async function startSecondFactor(
  ports: PeoplePorts,
  { person }: PersonVisit,
  password: string,
  { headers, address }: Asking,
): Promise<SecondFactorStart> {
  await refuseWithoutPassword(ports, person)
  const started = await ports.limits.guard({ account: person.email, address }, () =>
    ports.auth.api.enableTwoFactor({ body: { password }, headers }).catch((error: unknown) => {
      if (codeOfRefusal(error) !== 'TOTP_ALREADY_ENABLED') throw wrongPassword()
      throw new Refusal('wrong-state', 'A second factor is asked for already. Remove it first.')
    }),
  )
  if (started.method !== 'totp') throw new Error(`Expected totp, got ${started.method}.`)
  return { uri: started.totpURI, backupCodes: started.backupCodes }
}

/** @throws Refusal `sign-in-refused`, `too-many-tries` or `wrong-state` */
export async function confirmSecondFactor(
  ports: PeoplePorts,
  visit: PersonVisit,
  code: string,
  { headers, address }: Asking,
): Promise<WithCookies<Me>> {
  const { person } = visit
  const confirmed = await ports.limits.guard({ account: person.email, address }, () =>
    ports.auth.api
      .verifyTOTP({ body: { code }, headers, returnHeaders: true })
      .catch((error: unknown) => {
        if (codeOfRefusal(error) !== 'TOTP_NOT_ENABLED') throw refusalOfCode('INVALID_CODE')
        throw new Refusal('wrong-state', 'Begin with a new authenticator first.')
      }),
  )
  await noteOwnStep(ports, visit, 'second-factor-on')
  return { answer: await meOf(ports, person.id), cookies: confirmed.headers.getSetCookie() }
}

/** @throws Refusal `sign-in-refused`, `too-many-tries` or `wrong-state` */
export async function removeSecondFactor(
  ports: PeoplePorts,
  visit: PersonVisit,
  password: string,
  { headers, address }: Asking,
): Promise<WithCookies<Me>> {
  const { person } = visit
  if (!(await ports.store.people.hasSecondFactor(person.id))) {
    throw new Refusal('wrong-state', 'No second factor is asked for.')
  }
  const removed = await ports.limits.guard({ account: person.email, address }, () =>
    ports.auth.api
      .disableTwoFactor({ body: { password }, headers, returnHeaders: true })
      .catch((error: unknown) => {
        codeOfRefusal(error)
        throw wrongPassword()
      }),
  )
  await noteOwnStep(ports, visit, 'second-factor-off')
  return { answer: await meOf(ports, person.id), cookies: removed.headers.getSetCookie() }
}
