import { type Actor, ROLES, type Role } from '#contract/actor.ts'
import { Id } from '#domain/feeder/identifiers.ts'

/** The three people who use the screens; each is a role of the contract. */
export type Person = Role
export const PERSONS = ROLES

const STORED_ID = 'crossarm.actor-id'

let role: Role = 'planner'

/** Name under which changes are recorded; "someone" until the person gives one. */
export function actorId(): string {
  return window.localStorage.getItem(STORED_ID) ?? 'someone'
}

/** Keeps the name on this device. Returns false, and keeps nothing, where it cannot be an id. */
export function keepActorId(id: string): boolean {
  if (!Id.safeParse(id).success) return false
  window.localStorage.setItem(STORED_ID, id)
  return true
}

/** Says as whom the next requests are made. */
export function actAs(next: Role): void {
  role = next
}

export function currentActor(): Actor {
  return { id: actorId(), role }
}
