import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { Role } from './actor.ts'
import { RIGHT_NAMES } from './rights.ts'

export const Email = z.email().max(254)
export const PersonName = z.string().trim().min(1).max(80)
/** NIST SP 800-63B asks for length, not for kinds of characters. */
export const Password = z.string().min(12).max(256)

export const DEMO_ROLES = ['planner', 'coordinator', 'crew', 'supervisor', 'reader'] as const

/** What was done with the way into an account; stands as `step` in the history of the person. */
export const ACCOUNT_STEPS = [
  'password-changed',
  'password-set-anew',
  'second-factor-on',
  'second-factor-off',
  'passkey-added',
  'passkey-removed',
  'other-sessions-ended',
  'link-made',
] as const

/** Who is signed in, as which role they act, and what that lets them do. */
export const Me = z.object({
  id: Id,
  name: z.string(),
  email: z.string().nullable(),
  roles: z.array(Role).min(1),
  actingRole: Role,
  rights: z.array(z.enum(RIGHT_NAMES)),
  /** One of the people of the demo, who need no password. */
  isDemo: z.boolean(),
  hasSecondFactor: z.boolean(),
})

export const EnterDemoBody = z.object({ role: z.enum(DEMO_ROLES) })

export const SignInBody = z.object({ email: Email, password: z.string().min(1).max(256) })
export const SignInAnswer = z.discriminatedUnion('state', [
  z.object({ state: z.literal('signed-in'), me: Me }),
  z.object({ state: z.literal('second-factor-needed') }),
])
/** A code of the authenticator, or one of the codes kept for a lost one. */
export const SecondFactorBody = z.object({ code: z.string().trim().min(6).max(32) })

export const ChangePasswordBody = z.object({
  current: z.string().min(1).max(256),
  next: Password,
})
export const PasswordBody = z.object({ password: z.string().min(1).max(256) })

/** To be taken into an authenticator (RFC 6238), and codes for the day when it is lost. */
export const SecondFactorStart = z.object({ uri: z.string(), backupCodes: z.array(z.string()) })

/** One place where the person is signed in. */
export const SignedInSession = z.object({
  id: Id,
  isThisOne: z.boolean(),
  startedAt: z.iso.datetime(),
  endsAt: z.iso.datetime(),
  /** As the browser names itself. */
  device: z.string().nullable(),
})
export const SessionParams = z.object({ sessionId: Id })

export const AcceptInvitationBody = z.object({
  token: z.string().min(20).max(200),
  name: PersonName,
  password: Password,
  /** Where the invitation names none, as that of the first administrator. */
  email: Email.optional(),
})
/** What an invitation says before it is accepted. */
/** In the body, since an address is written into logs. */
export const InvitationBody = z.object({ token: z.string().min(20).max(200) })
export const InvitationWords = z.object({
  /** Null for the first administrator, who says it. */
  email: z.string().nullable(),
  name: z.string(),
  roles: z.array(Role),
  endsAt: z.iso.datetime(),
})

export type AccountStep = (typeof ACCOUNT_STEPS)[number]
export type Me = z.infer<typeof Me>
export type SignInAnswer = z.infer<typeof SignInAnswer>
export type SignedInSession = z.infer<typeof SignedInSession>
export type AcceptInvitationBody = z.infer<typeof AcceptInvitationBody>
export type InvitationWords = z.infer<typeof InvitationWords>
export type SecondFactorStart = z.infer<typeof SecondFactorStart>
export type DemoRole = (typeof DEMO_ROLES)[number]
export const Done = z.object({ done: z.literal(true) })
