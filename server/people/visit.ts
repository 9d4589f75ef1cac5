import { parseSigned, serializeSigned } from 'hono/utils/cookie'
import type { Role } from '#contract/actor.ts'
import { type Asker, type Right, rightsOf } from '#contract/rights.ts'
import type { StoredPerson, StoredSession, Token } from '../services/people-ports.ts'
import { Refusal } from '../services/refusal.ts'
import type { PeoplePorts } from './people-ports.ts'
import { hashOfSecret, TOKEN_PREFIX } from './secrets.ts'
import { hasSessionEnded, laterEnd, TOKEN_USE_EVERY_MS } from './session-times.ts'

/** One request seen from the door: who asks, and by what. */
export type Visit = PersonVisit | MachineVisit

export interface PersonVisit {
  readonly asker: Asker
  readonly person: StoredPerson
  readonly session: StoredSession
  /** Where the session was prolonged: the cookie to be kept as much longer, as in `set-cookie`. */
  readonly cookie: string | null
}

export interface MachineVisit {
  readonly asker: Asker
  readonly machine: Token
}

/** The parts of a request that tell who asks, each null where it was left out. */
export interface Credentials {
  readonly cookies: string | null
  readonly authorization: string | null
  readonly actingRole: string | null
}

/**
 * Who asks. Null for nobody, and for what is not known, has ended or was closed.
 *
 * @throws Refusal `not-allowed` where the person does not have the role
 */
export async function readVisit(
  ports: PeoplePorts,
  credentials: Credentials,
): Promise<Visit | null> {
  const { authorization, cookies } = credentials
  if (authorization !== null) return readMachine(ports, authorization)
  if (cookies !== null) return readPerson(ports, cookies, credentials.actingRole)
  return null
}

async function readPerson(
  ports: PeoplePorts,
  cookies: string,
  actingRole: string | null,
): Promise<PersonVisit | null> {
  const { name, attributes } = await ports.cookie()
  const token = (await parseSigned(cookies, ports.secret, name))[name]
  const found = token ? await ports.store.sessions.find(token) : null
  if (!found || !mayBeHere(ports, found.person)) return null
  const { person, session } = found
  const nowMs = Date.parse(ports.clock())
  if (hasSessionEnded(session, nowMs)) return null
  const asker = { id: person.id, role: roleOf(person, actingRole) }
  const endsAt = laterEnd(session, nowMs)
  if (endsAt === null) return { asker, person, session, cookie: null }
  await ports.store.sessions.extend(session.id, endsAt, ports.clock())
  const maxAge = Math.ceil((Date.parse(endsAt) - nowMs) / 1000)
  const cookie = await serializeSigned(name, session.token, ports.secret, { ...attributes, maxAge })
  return { asker, person, session: { ...session, endsAt }, cookie }
}

/** The people of the demo are gone where the demo is off. */
export function mayBeHere({ isDemo }: Pick<PeoplePorts, 'isDemo'>, person: StoredPerson): boolean {
  return person.state === 'active' && (!person.isDemo || isDemo)
}

function roleOf({ roles }: StoredPerson, wanted: string | null): Role {
  const role = wanted === null ? roles[0] : roles.find((each) => each === wanted)
  if (role !== undefined) return role
  throw new Refusal(
    'not-allowed',
    `You do not have the role "${wanted}"; yours: ${roles.join(', ')}.`,
  )
}

const BEARER = /^Bearer +(\S+)$/i

async function readMachine(
  { store, clock }: PeoplePorts,
  authorization: string,
): Promise<MachineVisit | null> {
  const secret = BEARER.exec(authorization)?.[1]
  if (!secret?.startsWith(TOKEN_PREFIX)) return null
  // Found by the hash of a secret of 256 random bits: how long the search takes tells nothing of it.
  const machine = await store.tokens.findBySecret(hashOfSecret(secret))
  const now = clock()
  if (!machine || machine.revokedAt !== null || machine.endsAt <= now) return null
  await noteUse(store.tokens, machine, now)
  return { asker: askerOf(machine), machine }
}

/** A right that the role has lost since the token was made is lost to the token too. */
function askerOf({ id, role, rights }: Token): Asker {
  const only: Right[] = rightsOf({ role, only: rights })
  return { id, role, only }
}

async function noteUse(tokens: PeoplePorts['store']['tokens'], token: Token, now: string) {
  const lastMs = token.lastUsedAt === null ? 0 : Date.parse(token.lastUsedAt)
  if (Date.parse(now) - lastMs >= TOKEN_USE_EVERY_MS) await tokens.noteUse(token.id, now)
}
