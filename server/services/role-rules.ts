import type { Actor, Role } from '#contract/actor.ts'
import { Refusal } from './refusal.ts'

const EVERYONE: readonly Role[] = ['planner', 'coordinator', 'crew']

/** The one table of who may do what. The key is what is said to a person who may not. */
const ALLOWED = {
  read: EVERYONE,
  'solve voltages': EVERYONE,
  'take in a feeder': ['planner', 'coordinator'],
  'start a siting study': ['planner'],
  'cancel a siting study': ['planner'],
  'keep a proposal': ['planner'],
  'delete or restore a proposal': ['planner'],
  'record a guard, cover or perch': ['coordinator', 'crew'],
  'change a guard, cover or perch': ['coordinator', 'crew'],
  'delete or restore a guard, cover or perch': ['coordinator'],
} as const satisfies Record<string, readonly Role[]>

export type Action = keyof typeof ALLOWED

/** @throws Refusal `not-allowed` where the actor's role does not carry the action. */
export function authorize(actor: Actor, action: Action): void {
  const roles: readonly Role[] = ALLOWED[action]
  if (roles.includes(actor.role)) return
  const may = roles.join(' or ')
  throw new Refusal('not-allowed', `The role ${actor.role} may not ${action}; ${may} may.`)
}
