import type { Settings } from '#contract/service.ts'
import type { PeopleStore } from '../services/people-ports.ts'
import type { Clock, NewId } from '../services/ports.ts'
import { type AuthOptions, makeAuth } from './auth.ts'
import { addDemoPeople } from './demo-people.ts'
import type { LibraryAddress } from './library-addresses.ts'
import type { PeoplePorts, SessionCookie } from './people-ports.ts'
import { SignInLimits } from './sign-in-limits.ts'
import type { SignOn } from './sign-on.ts'
import { type Credentials, readVisit, type Visit } from './visit.ts'

export interface PeopleOptions {
  readonly store: PeopleStore
  /** Its Kysely and its kind, for the library of sign-in. */
  readonly database: AuthOptions['database']
  readonly secret: string
  /** As people reach the server; null where it is reached by its own address. */
  readonly origin: string | null
  readonly isDemo: boolean
  readonly signOn: SignOn | null
  readonly hasPasskeys: boolean
  readonly clock: Clock
  readonly newId: NewId
  readonly reportFault: (fault: unknown) => void
}

export type PeopleSettings = Omit<Settings, 'mapStyleUrl'>

/** The people of the server: who asks, signing in, accounts, invitations and tokens. */
export interface People {
  readonly ports: PeoplePorts
  readonly origin: string | null
  /** Which ways to sign in are set up beside the password. */
  readonly parts: ReadonlySet<LibraryAddress['partOf']>
  visit(credentials: Credentials): Promise<Visit | null>
  settings(): Promise<PeopleSettings>
}

/** Where nobody said how the server is reached, nothing depends on it. */
const NO_ORIGIN = 'http://localhost'

export async function openPeople(options: PeopleOptions): Promise<People> {
  const { store, isDemo, clock, signOn, hasPasskeys, origin } = options
  const auth = makeAuth({
    ...options,
    origin: origin ?? NO_ORIGIN,
    maySignIn: async (personId) => {
      const person = await store.people.find(personId)
      return person !== null && person.state !== 'closed' && (isDemo || !person.isDemo)
    },
    onSignIn: async (personId) => {
      await store.people.activate(personId, clock())
      await store.people.noteSignIn(personId, clock())
    },
  })
  const ports: PeoplePorts = {
    store,
    auth,
    secret: options.secret,
    limits: new SignInLimits(store.tries, options.secret, clock),
    isDemo,
    clock,
    newId: options.newId,
    cookie: async () => (await auth.$context).authCookies.sessionToken as SessionCookie,
  }
  if (isDemo) await addDemoPeople(store.people, clock())
  return {
    ports,
    origin,
    parts: new Set([
      ...(signOn ? (['sign-on'] as const) : []),
      ...(hasPasskeys ? (['passkeys'] as const) : []),
    ]),
    visit: (credentials) => readVisit(ports, credentials),
    settings: async () => ({
      isDemo,
      ownSignOn: signOn?.name ?? null,
      hasPasskeys,
      needsAdministrator: (await store.people.countAdministrators()) === 0,
    }),
  }
}
