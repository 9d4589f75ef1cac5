import type { Person } from '#contract/people.ts'
import type { StoredPerson } from '../services/people-ports.ts'

/** What an administrator is told of a person. */
export function personAsTold({ isDemo: _isDemo, ...person }: StoredPerson): Person {
  return person
}
