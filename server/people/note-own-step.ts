import type { AccountStep } from '../services/people-ports.ts'
import type { PeoplePorts } from './people-ports.ts'
import type { PersonVisit } from './visit.ts'

/**
 * Notes in the history what somebody did with their own account. The library of sign-in writes by
 * itself, so this comes right after it has succeeded.
 */
export function noteOwnStep(
  { store, clock }: Pick<PeoplePorts, 'store' | 'clock'>,
  { person, asker }: Pick<PersonVisit, 'person' | 'asker'>,
  step: AccountStep,
): Promise<void> {
  const actor = { id: asker.id, role: asker.role }
  return store.people.noteStep(person.id, step, { actor, at: clock() })
}
