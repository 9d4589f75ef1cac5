import type { AcceptInvitationBody, InvitationWords, Me } from '#contract/account.ts'
import type { Actor, Role } from '#contract/actor.ts'
import type { Invited } from '#contract/people.ts'
import type { NewInvitation, StoredPerson } from '../services/people-ports.ts'
import { Refusal } from '../services/refusal.ts'
import type { Asking, WithCookies } from './asking.ts'
import { beginSession } from './begin-session.ts'
import { isFirstAdministrator } from './first-administrator.ts'
import type { PeoplePorts } from './people-ports.ts'
import { personAsTold } from './person-as-told.ts'
import { hashOfSecret, newSecret } from './secrets.ts'

const INVITATION_DAYS = 7
const DAY_MS = 24 * 3_600_000

export type InvitingPorts = Pick<PeoplePorts, 'store' | 'clock' | 'newId'>

interface NewcomerWords {
  readonly name: string
  readonly email: string
  readonly roles: readonly Role[]
}

/** @throws Refusal `wrong-state` where the email belongs to somebody already */
export async function invitePerson(
  ports: InvitingPorts,
  actor: Actor,
  { name, email, roles }: NewcomerWords,
  origin: string,
  lastsMs?: number,
): Promise<Invited> {
  const at = ports.clock()
  const { secret, kept } = newInvitation(at, lastsMs)
  const added = await ports.store.people.add(
    { id: ports.newId(), name, email, roles: distinct(roles), state: 'invited', isDemo: false },
    { actor, at },
    kept,
  )
  if (added.status === 'added') return invited(added.person, secret, kept, origin)
  throw emailTaken()
}

/** A new link to come in by; older ones no longer work. @throws Refusal `not-found` or `wrong-state` */
export async function renewInvitation(
  ports: InvitingPorts,
  actor: Actor,
  personId: string,
  origin: string,
  lastsMs?: number,
): Promise<Invited> {
  const person = await ports.store.people.find(personId)
  if (!person) throw new Refusal('not-found', `There is no person "${personId}".`)
  if (person.state === 'closed' || person.isDemo) {
    const why = person.isDemo ? 'is of the demo' : 'is closed'
    throw new Refusal('wrong-state', `The person ${why}, so there is nothing to invite to.`, {
      current: personAsTold(person),
    })
  }
  const at = ports.clock()
  const { secret, kept } = newInvitation(at, lastsMs)
  const asInvited = await ports.store.people.invite(personId, kept, { actor, at })
  return invited(asInvited ?? person, secret, kept, origin)
}

/** @throws Refusal `not-found` or `too-many-tries` */
export async function readInvitation(
  ports: PeoplePorts,
  token: string,
  { address }: Asking,
): Promise<InvitationWords> {
  return ports.limits.guard({ address }, async () => {
    const found = await ports.store.people.findInvitation(hashOfSecret(token))
    if (!found || found.endsAt <= ports.clock()) throw ended()
    const { email, name, roles } = found.person
    const named = isFirstAdministrator(found.person) ? null : email
    return { email: named, name, roles, endsAt: found.endsAt }
  })
}

/** Signs the person in. @throws Refusal `not-found`, `malformed-request`, `wrong-state` or `too-many-tries` */
export async function acceptInvitation(
  ports: PeoplePorts,
  { token, name, password, email }: AcceptInvitationBody,
  asking: Asking,
): Promise<WithCookies<Me>> {
  const person = await ports.limits.guard({ address: asking.address }, async () => {
    const secretHash = hashOfSecret(token)
    const found = await ports.store.people.findInvitation(secretHash)
    if (!found) throw ended()
    const passwordHash = await (await ports.auth.$context).password.hash(password)
    const given = { name, passwordHash, email: emailOf(found.person, email) }
    const accepted = await ports.store.people.accept(secretHash, given, ports.clock())
    if (!accepted) throw ended()
    if (accepted.status === 'email-taken') throw emailTaken()
    return accepted.person
  })
  return beginSession(ports, person, asking)
}

/** The email that was invited stays; only the first administrator says one. */
function emailOf(person: StoredPerson, given: string | undefined): string {
  if (!isFirstAdministrator(person)) return person.email
  if (given !== undefined) return given
  throw new Refusal('malformed-request', 'Say the email that you will sign in with.', {
    faults: [{ at: 'body.email', what: 'is needed' }],
  })
}

function emailTaken(): Refusal {
  return new Refusal(
    'wrong-state',
    'Somebody has this email already. Look for it among the people.',
  )
}

function ended(): Refusal {
  return new Refusal('not-found', 'The link was used or has ended. Ask for a new one.')
}

function newInvitation(
  at: string,
  lastsMs = INVITATION_DAYS * DAY_MS,
): { secret: string; kept: NewInvitation } {
  const secret = newSecret()
  const endsAt = new Date(Date.parse(at) + lastsMs).toISOString()
  return { secret, kept: { secretHash: hashOfSecret(secret), endsAt } }
}

/** What stands behind the "#" a browser sends to nobody, so no log holds it. */
function invited(
  person: StoredPerson,
  secret: string,
  { endsAt }: NewInvitation,
  origin: string,
): Invited {
  return { person: personAsTold(person), link: `${origin}/invitation#${secret}`, endsAt }
}

function distinct(roles: readonly Role[]): Role[] {
  return [...new Set(roles)]
}
