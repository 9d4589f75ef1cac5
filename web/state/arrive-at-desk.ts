import type { Person } from '../api/actor.ts'
import { PERSONS } from '../api/actor.ts'
import { currentSelection, select } from './selection.ts'

/**
 * Opens the desk of whoever comes in. A link that names a desk, or something that only one of
 * them shows, keeps it.
 *
 * @param roles of the person, the first of which counts
 */
export function arriveAtDesk(roles: readonly string[]): void {
  const { proposal, study } = currentSelection()
  const isLedElsewhere = new URLSearchParams(window.location.search).has('person')
  if (isLedElsewhere || proposal !== null || study !== null) return
  select({ person: deskOf(roles) })
}

/** Those who have no desk of their own find the whole line at the planner's. */
function deskOf(roles: readonly string[]): Person {
  return PERSONS.find((person) => roles.includes(person)) ?? 'planner'
}
