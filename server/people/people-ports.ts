import type { CookieOptions } from 'hono/utils/cookie'
import type { PeopleStore } from '../services/people-ports.ts'
import type { Clock, NewId } from '../services/ports.ts'
import type { Auth } from './auth.ts'
import type { SignInLimits } from './sign-in-limits.ts'

/** What everything in this room needs. */
export interface PeoplePorts {
  readonly store: PeopleStore
  readonly auth: Auth
  readonly secret: string
  readonly limits: SignInLimits
  readonly isDemo: boolean
  readonly clock: Clock
  readonly newId: NewId
  /** Of the session; its name and flags differ where the server is reached by https. */
  readonly cookie: () => Promise<SessionCookie>
}

export interface SessionCookie {
  readonly name: string
  readonly attributes: CookieOptions
}
