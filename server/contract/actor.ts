import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'

export const ROLES = [
  'planner',
  'coordinator',
  'crew',
  'supervisor',
  'reader',
  'administrator',
] as const
export const Role = z.enum(ROLES)

/** Who did something, and in which of the person's roles. */
export const Actor = z.object({ id: Id, role: Role })

/** In which of their roles a person asks; the first of them where the header is left out. */
export const ACTING_ROLE_HEADER = 'x-acting-role'

/** Makes a write safe to repeat: the same key gives the same answer and changes nothing again. */
export const IDEMPOTENCY_HEADER = 'idempotency-key'
/** Visible ASCII characters. */
export const IdempotencyKey = z.string().regex(/^[!-~]{8,128}$/)

export type Role = z.infer<typeof Role>
export type Actor = z.infer<typeof Actor>
