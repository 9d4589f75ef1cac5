import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { Email, PersonName } from './account.ts'
import { Actor, ROLES, Role } from './actor.ts'
import { RIGHT_NAMES } from './rights.ts'

const Version = z.number().int().min(1)
const Roles = z.array(Role).min(1).max(ROLES.length)

export const PERSON_STATES = ['invited', 'active', 'closed'] as const

/** One person of the utility. A closed one cannot sign in; what they did stays under their name. */
export const Person = z.object({
  id: Id,
  name: z.string(),
  email: z.string(),
  roles: Roles,
  state: z.enum(PERSON_STATES),
  version: Version,
  changedBy: Actor,
  changedAt: z.iso.datetime(),
  lastSignInAt: z.iso.datetime().nullable(),
})
export const PersonParams = z.object({ personId: Id })

export const InvitePersonBody = z.object({ name: PersonName, email: Email, roles: Roles })

/** The link is shown once, to be handed over by the administrator. */
export const Invited = z.object({
  person: Person,
  link: z.string(),
  endsAt: z.iso.datetime(),
})

export const ChangePersonBody = z.object({
  name: PersonName,
  roles: Roles,
  state: z.enum(['active', 'closed', 'invited']),
  version: Version,
})

/** Names to show in place of ids, of people, machines and of what came with the program. */
export const Names = z.object({ names: z.record(z.string(), z.string()) })

export const Token = z.object({
  id: Id,
  name: z.string(),
  role: Role,
  rights: z.array(z.enum(RIGHT_NAMES)).min(1),
  madeBy: Actor,
  madeAt: z.iso.datetime(),
  endsAt: z.iso.datetime(),
  revokedAt: z.iso.datetime().nullable(),
  lastUsedAt: z.iso.datetime().nullable(),
})
export const TokenParams = z.object({ tokenId: Id })
export const MakeTokenBody = z.object({
  name: PersonName,
  role: Role,
  rights: z.array(z.enum(RIGHT_NAMES)).min(1),
  days: z.number().int().min(1).max(366),
})
/** The secret is shown once; only its hash is kept. */
export const TokenMade = z.object({ token: Token, secret: z.string() })

export type Person = z.infer<typeof Person>
export type InvitePersonBody = z.infer<typeof InvitePersonBody>
export type Invited = z.infer<typeof Invited>
export type ChangePersonBody = z.infer<typeof ChangePersonBody>
export type Token = z.infer<typeof Token>
export type MakeTokenBody = z.infer<typeof MakeTokenBody>
export type TokenMade = z.infer<typeof TokenMade>
