import { passkey } from '@better-auth/passkey'
import { type BetterAuthOptions, betterAuth } from 'better-auth'
import { createAuthEndpoint } from 'better-auth/api'
import { setSessionCookie } from 'better-auth/cookies'
import { genericOAuth, twoFactor } from 'better-auth/plugins'
import { z } from 'zod'
import { SESSION_IDLE_S } from './session-times.ts'
import type { SignOn } from './sign-on.ts'

export const PRODUCT = 'Crossarm'
/** Path below which the library's own addresses are, for the few of them that are reachable. */
export const AUTH_PATH = '/api/auth'
const COOKIE_PREFIX = 'crossarm'
/** Where the server is reached by https, `__Secure-` stands before it. */
export const SESSION_COOKIE = `${COOKIE_PREFIX}.session_token`
export const OWN_SIGN_ON = 'own-sign-on'

export interface AuthOptions {
  /** Its Kysely and its kind. */
  readonly database: BetterAuthOptions['database']
  readonly secret: string
  /** Where browsers reach the server, as https://crossarm.example. */
  readonly origin: string
  readonly signOn: SignOn | null
  readonly hasPasskeys: boolean
  /** False where the person may not sign in; asked before any session begins, however it does. */
  readonly maySignIn: (personId: string) => Promise<boolean>
  readonly onSignIn: (personId: string) => Promise<void>
  readonly reportFault: (fault: unknown) => void
}

export type Auth = ReturnType<typeof makeAuth>

/**
 * The library of sign-in on our tables: hashes of passwords (scrypt), sessions, second factors,
 * passkeys and a sign-on of the utility's own. Nobody signs up by it, and it counts no tries:
 * both are ours.
 */
export function makeAuth(options: AuthOptions) {
  const { database, secret, origin, signOn, hasPasskeys } = options
  return betterAuth({
    appName: PRODUCT,
    database,
    secret,
    baseURL: origin,
    basePath: AUTH_PATH,
    trustedOrigins: [origin],
    telemetry: { enabled: false },
    onAPIError: { errorURL: `${origin}/?sign-on=refused` },
    rateLimit: { enabled: false },
    logger: { log: (level, message) => level === 'error' && options.reportFault(message) },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: 12,
      maxPasswordLength: 256,
    },
    session: { modelName: 'auth_sessions', expiresIn: SESSION_IDLE_S, disableSessionRefresh: true },
    user: { modelName: 'auth_users' },
    verification: { modelName: 'auth_verifications' },
    account: {
      modelName: 'auth_accounts',
      // Tokens of the utility's sign-on are of no use here once the person is known.
      encryptOAuthTokens: true,
      accountLinking: { enabled: true, allowDifferentEmails: false },
    },
    advanced: {
      cookiePrefix: COOKIE_PREFIX,
      useSecureCookies: origin.startsWith('https://'),
      defaultCookieAttributes: { httpOnly: true, sameSite: 'lax' },
      ipAddress: { disableIpTracking: true },
      // Said, since the library would leave them out in tests.
      disableOriginCheck: false,
      disableCSRFCheck: false,
    },
    databaseHooks: {
      session: {
        create: {
          before: async ({ userId }) => (await options.maySignIn(userId)) && undefined,
          after: ({ userId }) => options.onSignIn(userId),
        },
      },
    },
    plugins: [
      beginsSessions(),
      twoFactor({
        issuer: PRODUCT,
        schema: { twoFactor: { modelName: 'auth_second_factors' } },
      }),
      ...(hasPasskeys ? [passkeys(origin)] : []),
      ...(signOn ? [ownSignOn(signOn)] : []),
    ],
  })
}

/** Begins a session for a person whose right to it was found otherwise; never reachable from outside. */
function beginsSessions() {
  return {
    id: 'begins-sessions',
    endpoints: {
      beginSession: createAuthEndpoint.serverOnly(
        { method: 'POST', body: z.object({ personId: z.string() }) },
        async (context) => {
          const { internalAdapter } = context.context
          const user = await internalAdapter.findUserById(context.body.personId)
          const session = user && (await internalAdapter.createSession(user.id))
          if (!session) return { begun: false }
          await setSessionCookie(context, { session, user })
          return { begun: true }
        },
      ),
    },
  } as const
}

function passkeys(origin: string) {
  return passkey({
    rpID: new URL(origin).hostname,
    rpName: PRODUCT,
    origin,
    schema: { passkey: { modelName: 'auth_passkeys' } },
  })
}

/** Lets in who was invited under the same email, and nobody else. */
function ownSignOn({ discovery, client, secret }: SignOn) {
  return genericOAuth({
    config: [
      {
        providerId: OWN_SIGN_ON,
        discoveryUrl: discovery,
        clientId: client,
        clientSecret: secret,
        scopes: ['openid', 'email', 'profile'],
        requireIdTokenVerification: true,
        disableSignUp: true,
      },
    ],
  })
}
