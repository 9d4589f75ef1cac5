import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'

export const ROLES = ['planner', 'coordinator', 'crew'] as const
export const Role = z.enum(ROLES)

/** Who asks. Chosen on the screen until people sign in. */
export const Actor = z.object({ id: Id, role: Role })

export const ACTOR_ID_HEADER = 'x-actor-id'
export const ACTOR_ROLE_HEADER = 'x-actor-role'

export type Role = z.infer<typeof Role>
export type Actor = z.infer<typeof Actor>
