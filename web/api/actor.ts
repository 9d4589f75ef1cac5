import type { Role } from '#contract/actor.ts'
import { mayDo, type Right } from '#contract/rights.ts'

/** The desks, each made for one person's work; whoever may see can stand at any of them. */
export const PERSONS = ['planner', 'coordinator', 'crew', 'supervisor'] as const
export type Person = (typeof PERSONS)[number]

let desk: Person = 'planner'

/** Says at which desk the next requests are made. */
export function standAt(next: Person): void {
  desk = next
}

/**
 * The role in which a person with several asks: the one of the open desk where it may do what is
 * asked, otherwise the first that may. A reader's comes last, since it sees least.
 */
export function actingRole(roles: readonly Role[], right: Right | 'anyone', at = desk): Role {
  const byDesk = [at, ...roles.filter((role) => role !== 'reader'), ...roles]
  const own = byDesk.filter((role) => roles.includes(role))
  const able = own.find((role) => right === 'anyone' || mayDo({ role }, right))
  return able ?? own[0] ?? 'reader'
}
